/** What a step saw, in a few words for the table. */
export type Step = (what: string, act: () => Promise<string>) => Promise<void>;

/** A way through the product with real parts, as a person takes it. The first fault ends it. */
export interface Journey {
  readonly title: string;
  /** Starts its real parts, goes step by step, and ends them. */
  go(step: Step): Promise<void>;
}

export interface StepTaken {
  readonly step: string;
  readonly seen: string;
  readonly seconds: number;
}

export interface JourneyReport {
  readonly journey: string;
  readonly steps: readonly StepTaken[];
  readonly seconds: number;
  readonly fault: { readonly step: string; readonly message: string } | null;
}

/** Runs a journey and tells of each step; a fault is told too, not thrown. */
export async function travelled(
  journey: Journey,
  onStep: (step: StepTaken) => void = () => {},
): Promise<JourneyReport> {
  const began = performance.now();
  const steps: StepTaken[] = [];
  let at = 'start the parts';
  const step: Step = async (what, act) => {
    at = what;
    const started = performance.now();
    const taken = { step: what, seen: await act(), seconds: secondsSince(started) };
    steps.push(taken);
    onStep(taken);
  };
  let fault: JourneyReport['fault'] = null;
  try {
    await journey.go(step);
  } catch (error) {
    fault = { step: at, message: String((error as Error).stack ?? error) };
  }
  return { journey: journey.title, steps, seconds: secondsSince(began), fault };
}

function secondsSince(startedMs: number): number {
  return Math.round(performance.now() - startedMs) / 1000;
}
