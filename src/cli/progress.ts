import type { Terminal } from './terminal.js';

const BAR_WIDTH = 24;
const SPEAK_EVERY_MS = 5000;
const REDRAW_EVERY_MS = 100;

/** How far long work is: a bar where somebody watches, else a line every few seconds. */
export class Progress {
  private what = '';
  private lastAt = 0;
  private hasBar = false;

  constructor(
    private readonly terminal: Terminal,
    private readonly nowMs: () => number = () => performance.now(),
  ) {}

  show(what: string, done: number, total: number): void {
    const isNew = what !== this.what;
    const isLast = done >= total;
    const pause = this.terminal.isInteractive ? REDRAW_EVERY_MS : SPEAK_EVERY_MS;
    if (!isNew && !isLast && this.nowMs() - this.lastAt < pause) return;
    if (isNew) this.end();
    this.what = what;
    this.lastAt = this.nowMs();
    if (!this.terminal.isInteractive) {
      this.terminal.err(`${what}: ${done} of ${total}\n`);
      return;
    }
    const share = total > 0 ? Math.min(1, done / total) : 1;
    const filled = Math.round(share * BAR_WIDTH);
    const bar = '█'.repeat(filled) + '░'.repeat(BAR_WIDTH - filled);
    this.terminal.err(`\r${what} ${bar} ${done} of ${total}`);
    this.hasBar = true;
    if (isLast) this.end();
  }

  /** Leaves the line of the bar. */
  end(): void {
    if (this.hasBar) this.terminal.err('\n');
    this.hasBar = false;
  }
}
