import type { MailPicture } from '../mail-outbox.entity.js';

/** What a mail says, in words and in order; how it looks is the layout's business. */

export interface MailCompany {
  readonly name: string;
  readonly postalAddress: string;
  readonly phone: string;
  /** Where a reply goes; empty where the company gave none. */
  readonly replyTo: string;
}

/** Lines every mail to a homeowner ends with. */
export interface MailFooting {
  readonly company: MailCompany;
  /** Why one gets this, in one sentence. */
  readonly because: string;
  readonly myPondUrl: string | null;
  readonly stopUrl: string | null;
}

export interface MailCaution {
  /** Says what to do. */
  readonly first: string;
  readonly more: readonly string[];
}

export interface MailTask {
  readonly title: string;
  /** Only where the homeowner has several ponds. */
  readonly pondName: string | null;
  /** Amounts with their unit and what they were computed for. */
  readonly amounts: readonly string[];
  /** The window, e.g. "Due Fri 9 Oct, at the latest Wed 14 Oct." */
  readonly when: string;
  readonly cautions: readonly MailCaution[];
  readonly steps: readonly string[];
  readonly why: string;
  readonly doneUrl: string;
  /** Null for what cannot wait. */
  readonly notNowUrl: string | null;
}

export interface RoutineLine {
  readonly title: string;
  readonly pondName: string | null;
  readonly amounts: readonly string[];
}

/** Told where a season of the water begins. */
export interface SeasonNote {
  readonly title: string;
  readonly sentences: readonly string[];
  readonly picture: MailPicture;
  /** What the picture shows: its only text. */
  readonly pictureWords: string;
  readonly pictureWidthPx: number;
}

export interface MailVisit {
  /** E.g. "Friday 9 October, between 8 and 10". */
  readonly when: string;
  readonly what: string;
}

export interface DatedLine {
  readonly when: string;
  readonly what: string;
}

export interface DigestContent extends MailFooting {
  readonly subject: string;
  /** The one heading, e.g. "One thing this week: change the feed". */
  readonly heading: string;
  /** Pond and town, or how many ponds, and the week. */
  readonly about: string;
  readonly water: readonly string[];
  readonly season: SeasonNote | null;
  /** Urgent ones first. */
  readonly tasks: readonly MailTask[];
  readonly routine: readonly RoutineLine[];
  readonly visits: readonly MailVisit[];
  readonly comingUp: readonly DatedLine[];
}

export interface UrgentContent extends MailFooting {
  readonly subject: string;
  readonly heading: string;
  readonly about: string;
  readonly water: readonly string[];
  readonly task: MailTask;
}

export interface ReadingLine {
  readonly name: string;
  readonly value: string;
  readonly meaning: string;
  readonly needsAction: boolean;
}

export interface VisitReportContent extends MailFooting {
  readonly subject: string;
  readonly heading: string;
  readonly about: string;
  readonly done: readonly { readonly title: string; readonly outcome: string; readonly remark: string }[];
  readonly readings: readonly ReadingLine[];
  readonly note: string;
  readonly watch: readonly string[];
  readonly visits: readonly MailVisit[];
  readonly comingUp: readonly DatedLine[];
  readonly reportUrl: string | null;
}

export interface VisitNoticeContent extends MailFooting {
  /** Where one says whether it suits; none where there is nothing to answer. */
  readonly answerUrl?: string | null;
  readonly subject: string;
  readonly heading: string;
  readonly about: string;
  readonly lines: readonly string[];
}

/** A mail as it is stored: both forms and what the list headers need. */
export interface WrittenMail {
  readonly subject: string;
  readonly html: string;
  readonly plainText: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly pictures?: readonly MailPicture[];
}
