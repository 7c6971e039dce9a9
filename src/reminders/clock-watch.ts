/** A wall clock may run ahead of the time that has passed by so much before mail is held. [h] */
const FARTHEST_HOURS = 24;
const MS_PER_HOUR = 3_600_000;

/** Compares the wall clock with a clock that is never set, from one look to the next. */
export class ClockWatch {
  private last: { readonly wallMs: number; readonly steadyMs: number } | null = null;

  /**
   * @param wallMs What the machine takes for the time. [ms]
   * @param steadyMs Time passed since some moment. [ms]
   */
  constructor(
    private readonly wallMs: () => number,
    private readonly steadyMs: () => number,
  ) {}

  /** Hours the wall clock went ahead since the last look beyond the time that passed, 0 unless more than a day. */
  jumpedHours(): number {
    const now = { wallMs: this.wallMs(), steadyMs: this.steadyMs() };
    const { last } = this;
    this.last = now;
    if (last === null) return 0;
    const hours = (now.wallMs - last.wallMs - (now.steadyMs - last.steadyMs)) / MS_PER_HOUR;
    return hours > FARTHEST_HOURS ? hours : 0;
  }
}
