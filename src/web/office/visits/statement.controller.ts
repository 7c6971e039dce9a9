import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../../accounts/index.js';
import { Clock } from '../../../platform/clock.js';
import { PartsShelf, type ShelfPartInput, VisitStatements } from '../../../visits/index.js';
import { type FormFaults, faultsOf, typedFields } from '../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { ZodPipe } from '../../shell/zod.pipe.js';
import { statementPage } from './statement.view.js';
import { statementModel } from './statement.view-model.js';
import { csvText, STATEMENT_COLUMNS, statementRows } from './visit-export.js';

const MonthSchema = z.object({
  month: z
    .string()
    .regex(/^\d{4}-(0[1-9]|1[0-2])$/)
    .optional()
    .catch(undefined),
  did: z.string().max(20).optional().catch(undefined),
});
type MonthAsked = z.output<typeof MonthSchema>;

const DID: Readonly<Record<string, string>> = {
  added: 'The part is on the shelf.',
  saved: 'The part is saved.',
  'taken-off': 'The part is off the shelf. What was used of it stays in the statements.',
};

/** Hours and parts of a month for the accounts, and the shelf the parts come from. */
@Controller('visits/statement')
@Roles('owner', 'office')
export class StatementController {
  constructor(
    private readonly statements: VisitStatements,
    private readonly shelf: PartsShelf,
    private readonly clock: Clock,
  ) {}

  @Get()
  async show(
    @CurrentActor() actor: Actor,
    @Query(new ZodPipe(MonthSchema)) asked: MonthAsked,
    @Res() response: Response,
  ): Promise<void> {
    const html = await this.pageOf(actor, asked.month ?? this.thisMonth(actor), {}, {}, DID[asked.did ?? ''] ?? null);
    response.type('html').send(html);
  }

  @Get('export.csv')
  async csv(
    @CurrentActor() actor: Actor,
    @Query(new ZodPipe(MonthSchema)) asked: MonthAsked,
    @Res() response: Response,
  ): Promise<void> {
    const month = asked.month ?? this.thisMonth(actor);
    const rows = statementRows(await this.statements.of(actor.companyId, month));
    response.setHeader('Content-Disposition', `attachment; filename="hours-and-parts-${month}.csv"`);
    response.type('text/csv; charset=utf-8').send(csvText(rows, STATEMENT_COLUMNS));
  }

  @Post('shelf')
  async addPart(@CurrentActor() actor: Actor, @Body() body: unknown, @Res() response: Response): Promise<void> {
    const typed = typedFields(body);
    await this.orSayWhy(actor, typed, response, async () => {
      await this.shelf.add(actor.companyId, partOf(typed));
      response.redirect(303, '/visits/statement?did=added#shelf');
    });
  }

  @Post('shelf/:partId')
  async changePart(
    @CurrentActor() actor: Actor,
    @Param('partId', ParseUUIDPipe) partId: string,
    @Body() body: unknown,
    @Res() response: Response,
  ): Promise<void> {
    const typed = typedFields(body);
    await this.orSayWhy(actor, typed, response, async () => {
      const isOff = typed.then === 'take-off';
      if (isOff) await this.shelf.setArchived(actor.companyId, partId, true);
      else {
        const part = (await this.shelf.list(actor.companyId)).find(({ id }) => id === partId);
        await this.shelf.change(actor.companyId, partId, { ...partOf(typed), ruleIds: part?.ruleIds ?? [] });
      }
      response.redirect(303, `/visits/statement?did=${isOff ? 'taken-off' : 'saved'}#shelf`);
    });
  }

  private async orSayWhy(
    actor: Actor,
    typed: Readonly<Record<string, string>>,
    response: Response,
    act: () => Promise<void>,
  ): Promise<void> {
    try {
      await act();
    } catch (error) {
      if ((error as { code?: string }).code === 'not-found') throw error;
      const html = await this.pageOf(actor, this.thisMonth(actor), typed, faultsOf(error), null);
      response.status(422).type('html').send(html);
    }
  }

  private async pageOf(
    actor: Actor,
    month: string,
    typed: Readonly<Record<string, string>>,
    faults: FormFaults,
    did: string | null,
  ): Promise<string> {
    const statement = await this.statements.of(actor.companyId, month);
    const shelf = await this.shelf.list(actor.companyId);
    return statementPage(actor, statementModel({ statement, shelf, typed, faults }), did);
  }

  private thisMonth(actor: Actor): string {
    return this.clock.now().setZone(actor.timeZone).toFormat('yyyy-MM');
  }
}

function partOf(typed: Readonly<Record<string, string>>): ShelfPartInput {
  const onHand = (typed.onHand ?? '').trim();
  return {
    name: typed.name ?? '',
    partRef: typed.partRef ?? '',
    unit: typed.unit ?? '',
    onHand: onHand === '' ? null : Number(onHand.replace(',', '.')),
    leadDays: Number(typed.leadDays || 0),
  };
}
