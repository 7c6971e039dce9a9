import type { Locator, Page } from 'playwright-core';

/**
 * Operator times of the keystroke-level model [s]: Card, Moran and Newell (1983), The Psychology of Human-Computer
 * Interaction, chapter 8; from memory. A key is one of a person typing complex codes, which is nearest to figures on a
 * number pad with a wet thumb.
 */
export const OPERATOR_SECONDS = { keyOfFigures: 0.75, pressOfTarget: 0.2, point: 1.1, home: 0.4, think: 1.35 } as const;

/** Counts what a thumb does, and how long that takes by the model. Reading a test kit is not in it. */
export class Thumb {
  presses = 0;
  seconds = 0;

  constructor(private readonly page: () => Page) {}

  /** Points at a target after a moment of thought, and presses it. */
  async press(target: Locator): Promise<void> {
    await target.click();
    this.presses += 1;
    this.seconds += OPERATOR_SECONDS.think + OPERATOR_SECONDS.point + OPERATOR_SECONDS.pressOfTarget;
  }

  /** Presses a field, moves to the number pad, and types figure by figure. */
  async type(field: Locator, figures: string): Promise<void> {
    await this.press(field);
    this.seconds += OPERATOR_SECONDS.home;
    for (const key of figures) {
      await this.page().keyboard.press(key);
      this.presses += 1;
      this.seconds += OPERATOR_SECONDS.keyOfFigures;
    }
  }
}
