/** Injection token of the demo, for an entry point that offers one. */
export const DEMO_LOADER = Symbol('demo-loader');

/** A link that signs in without typing. */
export interface DemoSignIn {
  /** Whose view it opens, e.g. `Office`. */
  readonly who: string;
  readonly url: string;
}

/** The demo company, made of real parts: it is stored, planned and reminded like any other, but never sends mail. */
export interface DemoLoader {
  /** Whether the demo company is there. */
  isLoaded(): Promise<boolean>;
  /** Stores the demo company. @param onProgress a sentence for each step */
  load(onProgress: (step: string) => void): Promise<void>;
  /** New sign-in links, one for each role: office, technician, homeowner. */
  signIns(): Promise<readonly DemoSignIn[]>;
}
