import { Injectable } from '@nestjs/common';
import type { Actor } from '../../accounts/index.js';
import { addDays, type CivilDay, isoDateOf } from '../../core/units/civil-day.js';
import { Clock } from '../../platform/clock.js';
import { newId } from '../../platform/ids.js';
import { ReadingsService } from '../../ponds/index.js';
import { type VisitReport, VisitsService } from '../../visits/index.js';
import type { FormFaults } from '../forms/form-faults.js';
import { closedPage } from './closed-visit.view.js';
import type { Typed } from './closing-form.js';
import { myRoundPage } from './my-round.view.js';
import { ROUND_AHEAD_DAYS, roundView } from './my-round.view-model.js';
import { PondBefore } from './pond-before.js';
import { PondSaidFor } from './pond-said-for.js';
import { readingFields } from './reading-fields.js';
import type { TaskCard } from './task-card.js';
import { TaskCards } from './task-cards.js';
import { visitPage } from './visit-page.view.js';
import { closedView, visitPageView } from './visit-page.view-model.js';

/** A page to be kept on a phone holds no gate code: the phone keeps that apart, for the day only. */
export interface PageOptions {
  readonly isKept?: boolean;
}

/** The technician's pages, made once for the browser and for what a phone keeps. */
@Injectable()
export class RoundPages {
  constructor(
    private readonly visits: VisitsService,
    private readonly readings: ReadingsService,
    private readonly cards: TaskCards,
    private readonly saidFor: PondSaidFor,
    private readonly before: PondBefore,
    private readonly clock: Clock,
  ) {}

  /** Visits of today and the coming days, and those of earlier days that were never closed. */
  async reports(
    actor: Actor,
    days = ROUND_AHEAD_DAYS,
  ): Promise<{ today: CivilDay; reports: VisitReport[]; leftOpen: VisitReport[] }> {
    const { companyId, personId } = actor;
    const today = this.clock.today(actor.timeZone);
    const span = { from: isoDateOf(today), to: isoDateOf(addDays(today, days)) };
    return {
      today,
      reports: await this.visits.roundFor(companyId, personId, span),
      leftOpen: await this.visits.leftOpen(companyId, personId, span.from),
    };
  }

  async round(actor: Actor, options: PageOptions = {}): Promise<string> {
    const view = roundView({
      ...(await this.reports(actor)),
      todayIn: (timeZone) => this.clock.today(timeZone),
      cardsOf: (report) => this.cardsOf(actor, report),
      isKept: options.isKept ?? false,
    });
    return myRoundPage(actor, view);
  }

  /** The form while a visit is open, what was kept once it is closed. */
  async visit(actor: Actor, visitId: string, options: PageOptions & { readonly isAddition?: boolean } = {}) {
    const report = await this.visits.get(actor.companyId, visitId);
    const isOpen = report.visit.state !== 'COMPLETED' || options.isAddition === true;
    return isOpen ? this.openPage(actor, report, options) : this.closed(actor, report);
  }

  /** The form with what was typed, and what is wrong with it. */
  async openPage(
    actor: Actor,
    report: VisitReport,
    given: PageOptions & { readonly typed?: Typed; readonly faults?: FormFaults } = {},
  ): Promise<string> {
    const { companyId, units } = actor;
    const { visit, pond } = report;
    const { typed = {}, faults = {}, isKept = false } = given;
    const today = this.clock.today(pond.pond.timeZone);
    const view = visitPageView({
      report,
      cards: this.cardsOf(actor, report),
      fields: readingFields(units),
      earlier: await this.readings.list(companyId, visit.pondId),
      about: await this.saidFor.of(companyId, pond.pond, units),
      before: await this.before.of(companyId, pond.pond, { visitId: visit.id, today, units }),
      today,
      place: await this.placeOf(actor, report),
      // A kept page is opened more than once: the phone makes the number of each closing itself.
      closingId: isKept ? '' : typed.closingId || newId(this.clock.now().toMillis()),
      typed,
      faults,
      isKept,
    });
    return visitPage(actor, view);
  }

  cardsOf(actor: Actor, report: VisitReport): TaskCard[] {
    return this.cards.of(
      report.tasks.map(({ care }) => care),
      actor.units,
    );
  }

  private async closed(actor: Actor, report: VisitReport): Promise<string> {
    const view = closedView({
      history: await this.visits.history(actor.companyId, report.visit.id),
      cards: this.cardsOf(actor, report),
      fields: readingFields(actor.units),
      about: await this.saidFor.of(actor.companyId, report.pond.pond, actor.units),
      today: this.clock.today(report.pond.pond.timeZone),
      place: await this.placeOf(actor, report),
    });
    return closedPage(actor, view);
  }

  /** Which of how many on that day's round. */
  private async placeOf(actor: Actor, { visit }: VisitReport): Promise<{ number: number; of: number }> {
    const technicianId = visit.technicianId ?? actor.personId;
    const round = await this.visits.roundFor(actor.companyId, technicianId, visit.plannedOn);
    return { number: round.findIndex((stop) => stop.visit.id === visit.id) + 1, of: round.length };
  }
}
