import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { Actor } from '../../accounts/index.js';
import { isoDateOf } from '../../core/units/civil-day.js';
import { Clock } from '../../platform/clock.js';
import type { VisitReport } from '../../visits/index.js';
import { assetUrl } from '../shell/assets.js';
import type { KeptRound } from './phone/kept-round.js';
import { PHONE_SCRIPTS } from './phone-app.js';
import { RoundPages } from './round-pages.js';
import { gateCodeToday } from './stop.view-model.js';

/** A phone keeps today and tomorrow, and what was left open before. */
const KEPT_AHEAD_DAYS = 1;
const SANS = 'atkinson-hyperlegible-next-latin-wght-normal.woff2';
const SERIF = 'petrona-latin-600-normal.woff2';

/** What a phone keeps to work without signal: which pages, scripts and gate codes, and by which token it sends. */
@Injectable()
export class RoundInventory {
  constructor(
    private readonly pages: RoundPages,
    private readonly clock: Clock,
  ) {}

  /** The inventory with a tag that changes when anything a phone keeps has changed. */
  async of(actor: Actor): Promise<{ round: KeptRound; etag: string }> {
    const { today, reports, leftOpen } = await this.pages.reports(actor, KEPT_AHEAD_DAYS);
    const visits = [...leftOpen, ...reports];
    const pages: KeptRound['pages'][number][] = [
      { href: '/my-round', hash: hashOf(await this.pages.round(actor, { isKept: true })) },
    ];
    for (const { visit } of visits) {
      const html = await this.pages.visit(actor, visit.id, { isKept: true });
      pages.push({ href: `/my-round/visits/${visit.id}`, hash: hashOf(html) });
    }
    const lasting = {
      format: 1,
      owner: `${actor.companyId}:${actor.personId}`,
      name: actor.name,
      units: actor.units,
      formToken: actor.formToken,
      today: isoDateOf(today),
      pages,
      assets: keptAssets(),
      visits: visits.map((report) => this.visitOf(report)),
    } as const;
    const now = this.clock.now();
    const keepMs = visits.map(({ visit, pond }) => endOfDayMs(visit.plannedOn, pond.pond.timeZone, now));
    const round: KeptRound = {
      ...lasting,
      now: this.clock.instant(),
      visits: lasting.visits.map((visit, i) => ({ ...visit, keepMs: keepMs[i] as number })),
    };
    return { round, etag: `"${hashOf(JSON.stringify(lasting))}"` };
  }

  private visitOf(report: VisitReport) {
    const { visit, pond } = report;
    const { id: visitId, state, version, plannedOn } = visit;
    const gateCode = gateCodeToday(report, this.clock.today(pond.pond.timeZone));
    return { visitId, pondName: pond.pond.name, state, version, plannedOn, gateCode };
  }
}

/** Milliseconds until the day of a visit is over where its pond is. */
function endOfDayMs(day: string, timeZone: string, now: ReturnType<Clock['now']>): number {
  const end = now.setZone(timeZone).set(dateParts(day)).endOf('day');
  return Math.max(0, end.toMillis() - now.toMillis());
}

function dateParts(day: string): { year: number; month: number; day: number } {
  const [year, month, dayOfMonth] = day.split('-').map(Number) as [number, number, number];
  return { year, month, day: dayOfMonth };
}

/** Fonts are asked for by style sheet and page without a version. */
function keptAssets(): string[] {
  const named = [...PHONE_SCRIPTS.map((name) => `${name}.js`), 'tarnkeep.css', 'mark.svg', 'phone.webmanifest'];
  return [...named.map(assetUrl), `/assets/${SANS}`, `/assets/${SERIF}`];
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 24);
}
