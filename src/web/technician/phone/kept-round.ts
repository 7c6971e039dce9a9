/** What a phone keeps of a round, as `GET /api/my-round` answers. */
export interface KeptRound {
  /** Of this answer; a phone that does not know it keeps what it has. */
  readonly format: 1;
  /** Company and person: what one person has closed is never shown to or sent by another. */
  readonly owner: string;
  readonly name: string;
  readonly units: 'us' | 'metric';
  /** Goes with everything that is sent. */
  readonly formToken: string;
  /** The server's time, ISO 8601: a phone's clock may be wrong. */
  readonly now: string;
  readonly today: string;
  /** Pages to keep, each with a hash that changes with its content. */
  readonly pages: readonly { readonly href: string; readonly hash: string }[];
  readonly assets: readonly string[];
  readonly visits: readonly KeptVisit[];
}

export interface KeptVisit {
  readonly visitId: string;
  readonly pondName: string;
  readonly state: string;
  readonly version: number;
  readonly plannedOn: string;
  /** On the day of the visit only. */
  readonly gateCode: string | null;
  /** Milliseconds until that day is over where the pond is. */
  readonly keepMs: number;
}
