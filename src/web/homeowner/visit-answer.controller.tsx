import { Body, Controller, Get, Param, Post, Query, Res, UseFilters } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import { DomainError } from '../../core/errors.js';
import { civilDay } from '../../core/units/civil-day.js';
import { arrivalWords, HomeownerWords, longDay } from '../../reminders/index.js';
import { type VisitReport, VisitsService } from '../../visits/index.js';
import { areaField } from '../forms/fields.js';
import { Public, WithoutFormToken } from '../shell/access.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { goTo, linkPage, sendLinkPage } from './link-page.js';
import { type OpenedLink, OpenedLinks } from './opened-link.service.js';
import { UnknownLinkError, UnknownLinkFilter } from './unknown-link.filter.js';

const AnswerSchema = z.object({
  answer: z.enum(['suits', 'does-not-suit'], { error: 'answer: choose whether the day suits you.' }),
  said: z.string().max(4000).default(''),
});
type Answer = z.output<typeof AnswerSchema>;

/** "Suits" or "does not suit" to a published visit, from the mail about it. Opening the link changes nothing. */
@Controller('l/visit-answer/:token')
@Public()
@UseFilters(UnknownLinkFilter)
export class VisitAnswerController {
  constructor(
    private readonly opened: OpenedLinks,
    private readonly visits: VisitsService,
    private readonly words: HomeownerWords,
  ) {}

  @Get()
  async show(@Param('token') token: string, @Query('did') did: unknown, @Res() response: Response): Promise<void> {
    const { opened, report } = await this.open(token);
    sendLinkPage(
      response,
      await this.page(token, opened, report, { isSaid: did === 'answered', fault: null, typed: '' }),
    );
  }

  @Post()
  @WithoutFormToken()
  async answer(
    @Param('token') token: string,
    @Body(new ZodPipe(AnswerSchema)) { answer, said }: Answer,
    @Res() response: Response,
  ): Promise<void> {
    const { opened, report } = await this.open(token);
    const { visit } = report;
    try {
      await this.words.say(visit.companyId, {
        pondId: visit.pondId,
        personId: opened.homeowner.personId,
        kind: answer === 'suits' ? 'visit-suits' : 'visit-does-not-suit',
        said,
        visitId: visit.id,
      });
      goTo(response, `/l/visit-answer/${token}?did=answered`);
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const notes = { isSaid: false, fault: error.message, typed: said };
      sendLinkPage(response, await this.page(token, opened, report, notes), 422);
    }
  }

  /** @throws UnknownLinkError also for a visit that is not on a pond of theirs any more */
  private async open(token: string): Promise<{ opened: OpenedLink; report: VisitReport }> {
    const opened = await this.opened.homeowner('visit-answer', token);
    const { homeowner, link } = opened;
    const report = await this.visits.get(homeowner.company.id, link.objectId).catch(() => null);
    if (!report || !homeowner.allPonds.some(({ id }) => id === report.visit.pondId)) throw new UnknownLinkError();
    return { opened, report };
  }

  private async page(
    token: string,
    { homeowner }: OpenedLink,
    { visit, pond }: VisitReport,
    notes: { readonly isSaid: boolean; readonly fault: string | null; readonly typed: string },
  ): Promise<string> {
    const { company, personId, name } = homeowner;
    const day = longDay(civilDay(visit.plannedOn));
    const arrival = arrivalWords(visit.fromTime, visit.toTime);
    const when = arrival === '' ? day : `${day}, ${arrival}`;
    const standing = await this.words.answerTo(company.id, personId, visit.id);
    const isOpen = visit.state === 'CONFIRMED';
    return linkPage({
      title: 'A visit',
      crumb: `${company.name}, for ${name}`,
      heading: isOpen ? `Does ${when} suit you?` : CLOSED_HEADINGS[visit.state],
      lead: isOpen ? `A visit to ${pond.pond.name}.` : `The visit to ${pond.pond.name} on ${day}.`,
      isDemo: company.isDemo,
      children: (
        <>
          {notes.isSaid && standing !== null ? (
            <p class="note" role="status" safe>
              {standing.kind === 'visit-suits'
                ? 'Thank you: we know that it suits you.'
                : `Thank you: we know that it does not suit you, and ${company.name} gets in touch.`}
            </p>
          ) : (
            ''
          )}
          {notes.fault === null ? (
            ''
          ) : (
            <p class="note act" role="alert" safe>
              {notes.fault}
            </p>
          )}
          {isOpen ? answerForm(`/l/visit-answer/${token}`, notes.typed || (standing?.said ?? '')) : ''}
        </>
      ),
    });
  }
}

const CLOSED_HEADINGS = {
  TENTATIVE: 'This visit is being planned anew',
  CONFIRMED: '',
  'IN-PROCESS': 'We are there now',
  COMPLETED: 'This visit is done',
  CANCELLED: 'This visit does not take place',
} as const;

function answerForm(path: string, typed: string): JSX.Element {
  return (
    <form class="slip-form" method="post" action={path}>
      {areaField({ name: 'said', label: 'Anything we should know (may stay empty)', value: typed })}
      <p class="acts">
        <button type="submit" class="btn first" name="answer" value="suits">
          It suits me
        </button>
        <button type="submit" class="btn" name="answer" value="does-not-suit">
          It does not suit me
        </button>
      </p>
    </form>
  );
}
