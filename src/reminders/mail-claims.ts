import type { MailOutboxEntity } from './mail-outbox.entity.js';

/** Mails claimed together and handed out one by one; parallel senders wait for the same claim. */
export class MailClaims {
  private claimed: MailOutboxEntity[] = [];
  private claiming: Promise<void> | null = null;
  private isDry = false;

  constructor(private readonly claim: () => Promise<MailOutboxEntity[]>) {}

  async next(): Promise<MailOutboxEntity | null> {
    while (this.claimed.length === 0 && !this.isDry) {
      this.claiming ??= this.refill();
      await this.claiming;
    }
    return this.claimed.shift() ?? null;
  }

  /** What was claimed and not handed out. */
  left(): readonly MailOutboxEntity[] {
    return this.claimed;
  }

  private async refill(): Promise<void> {
    try {
      this.claimed = await this.claim();
      this.isDry = this.claimed.length === 0;
    } finally {
      this.claiming = null;
    }
  }
}
