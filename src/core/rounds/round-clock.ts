import type { FlatProblem } from './flat-problem.js';

/**
 * Walks one round in time: leave at the opening of the working hours, drive, wait for the window, work, pause, go home.
 *
 * The pause is taken at the first stop where it costs nothing (while waiting), else when going on would begin it too
 * late: on arrival, or before driving off where the arrival is already past its last moment. A crew home before that
 * moment needs none.
 */
export class RoundClock {
  /** Departure from the last stop, or the arrival at home after `home`. */
  time = 0;
  /** Start of the work at the last stop, and the arrival before it. */
  start = 0;
  arrival = 0;
  isPauseDue = false;
  /** When the pause began; NaN while there was none. */
  pausedAt = Number.NaN;
  driving = 0;
  private round = 0;
  private row = 0;
  private pauseOpen = 0;
  private pauseClose = 0;
  private pauseLength = 0;

  constructor(private readonly flat: FlatProblem) {}

  begin(round: number): void {
    const pause = this.flat.problem.crewDays[round]!.pause;
    this.round = round;
    this.row = (this.flat.startRow[round] as number) * this.flat.size;
    this.time = this.flat.begin[round] as number;
    this.driving = 0;
    this.pausedAt = Number.NaN;
    this.isPauseDue = pause !== undefined && this.time <= pause.close;
    if (pause) {
      this.pauseOpen = pause.open;
      this.pauseClose = pause.close;
      this.pauseLength = pause.length;
    }
  }

  /** Goes on from a node (a visit, or anything from `visits` up for the start place) that was left earlier. */
  resume(node: number, time: number, isPauseDue: boolean): void {
    this.time = time;
    this.isPauseDue = isPauseDue;
    this.row = (node < this.flat.visits ? node : (this.flat.startRow[this.round] as number)) * this.flat.size;
  }

  /** Drives to a visit and does it. False when it cannot start in any window; the clock then starts it on arrival. */
  visit(visit: number): boolean {
    const { flat } = this;
    const driving = flat.travel[this.row + visit] as number;
    const service = flat.service[visit] as number;
    this.driving += driving;
    this.arrival = this.time + driving;
    let moment = this.arrival;
    let start = this.startFrom(visit, moment);
    if (this.isPauseDue) {
      const isHere = this.arrival <= this.pauseClose;
      const pause = Math.max(isHere ? this.arrival : this.time, this.pauseOpen);
      const rested = pause + this.pauseLength + (isHere ? 0 : driving);
      const later = this.startFrom(visit, rested);
      const end = (start === Number.POSITIVE_INFINITY ? moment : start) + service;
      if (later === start || end > this.pauseClose) {
        this.isPauseDue = false;
        this.pausedAt = pause;
        if (!isHere) this.arrival = rested;
        moment = rested;
        start = later;
      }
    }
    const isWelcome = start < Number.POSITIVE_INFINITY;
    this.start = isWelcome ? start : moment;
    this.time = this.start + service;
    this.row = visit * flat.size;
    return isWelcome;
  }

  /** Drives home; `time` is then the arrival. False when that is past the overtime allowed. */
  home(): boolean {
    const { flat } = this;
    const driving = flat.travel[this.row + (flat.endRow[this.round] as number)] as number;
    this.driving += driving;
    if (this.isPauseDue && this.time + driving > this.pauseClose) {
      this.pausedAt = Math.max(this.time, this.pauseOpen);
      this.time = this.pausedAt + this.pauseLength;
      this.isPauseDue = false;
    }
    this.time += driving;
    return this.time <= (flat.latestEnd[this.round] as number);
  }

  /** Earliest permitted start at or after a moment; Infinity past the last window. */
  private startFrom(visit: number, moment: number): number {
    const { flat } = this;
    const last = flat.windowAt[visit + 1] as number;
    let window = flat.firstWindow[visit * flat.crewDays + this.round] as number;
    while (window < last && (flat.windowClose[window] as number) < moment) window++;
    if (window >= last) return Number.POSITIVE_INFINITY;
    return Math.max(flat.windowOpen[window] as number, moment);
  }
}
