import { Body, Controller, Get, Header, HttpCode, Inject, Param, ParseUUIDPipe, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import type { Actor } from '../../../../accounts/index.js';
import { CompaniesService } from '../../../../accounts/index.js';
import { CARE_RULES } from '../../../../config/index.js';
import type { CareRule } from '../../../../core/care/care-rule.js';
import { DomainError } from '../../../../core/errors.js';
import { newId } from '../../../../platform/ids.js';
import {
  PondChangedMeanwhileError,
  type PondInput,
  PondInputRefusedError,
  PondsService,
  pondInputOf,
} from '../../../../ponds/index.js';
import { typedFields } from '../../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../../shell/access.js';
import { firstYear } from './first-year.view.js';
import { FormConclusionsService, isUuid } from './form-conclusions.service.js';
import { readNumber } from './form-units.js';
import type { ShownPond, TypedPond } from './form-values.js';
import { saidText } from './form-water.view.js';
import { pondFormPage } from './pond-form.view.js';
import {
  agreementRules,
  differences,
  editTyped,
  formFaults,
  formRows,
  type PondFormModel,
} from './pond-form.view-model.js';
import { shownPond } from './shown-pond.js';
import { type ReadPond, readTypedPond } from './typed-pond.js';

/** New ponds and edits: one form, its conclusions while somebody types, and the year it would give. */
@Controller('ponds')
@Roles('owner', 'office')
export class PondFormController {
  constructor(
    private readonly ponds: PondsService,
    private readonly conclusions: FormConclusionsService,
    private readonly companies: CompaniesService,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
  ) {}

  @Get('new')
  @Header('Content-Type', 'text/html; charset=utf-8')
  async newPond(@CurrentActor() actor: Actor): Promise<string> {
    const typed: TypedPond = {
      id: newId(),
      country: 'US',
      tapSource: 'unknown',
      shapeKind: 'ellipse',
      depthKind: 'average',
      windShelter: 'suburban',
    };
    return this.page(actor, typed, { input: null, faults: {} });
  }

  @Post('new')
  async create(@CurrentActor() actor: Actor, @Res() response: Response, @Body() body: unknown): Promise<void> {
    const typed = withId(typedFields(body));
    const read = readTypedPond(typed, actor.units);
    if (isOnlyLookedAt(typed) || !read.input) return this.again(actor, response, typed, read);
    try {
      const id = await this.ponds.create(actor.companyId, read.input, { id: typed.id });
      response.redirect(303, `/ponds/${id}?did=created`);
    } catch (error) {
      await this.again(actor, response, typed, { input: read.input, faults: savingFaults(error) });
    }
  }

  /** What the form says so far, for the page's script: conclusions and the year, as markup. */
  @Post('preview')
  @HttpCode(200)
  async preview(
    @CurrentActor() actor: Actor,
    @Body() body: unknown,
  ): Promise<{ said: Record<string, string>; year: string }> {
    const typed = typedFields(body);
    const { said, year } = await this.conclusions.of(actor, typed, readTypedPond(typed, actor.units));
    const texts = Object.entries(said).map(([place, line]) => [place, line ? String(saidText(line)) : '']);
    return { said: Object.fromEntries(texts), year: String(firstYear(year)) };
  }

  @Get(':pondId/edit')
  @Header('Content-Type', 'text/html; charset=utf-8')
  async edit(@CurrentActor() actor: Actor, @Param('pondId', ParseUUIDPipe) pondId: string): Promise<string> {
    const { shown, version } = await this.standing(actor, pondId);
    const typed = editTyped(shown, { id: pondId, version });
    return this.page(actor, typed, readTypedPond(typed, actor.units, shown), pondId);
  }

  @Post(':pondId/edit')
  async save(
    @CurrentActor() actor: Actor,
    @Param('pondId', ParseUUIDPipe) pondId: string,
    @Res() response: Response,
    @Body() body: unknown,
  ): Promise<void> {
    const typed: TypedPond = { ...typedFields(body), id: pondId };
    const { shown, version } = await this.standing(actor, pondId);
    const expected = readNumber(typed.version) ?? version;
    // Numbers left alone keep their stored value, as long as they still are what the page showed.
    const read = readTypedPond(typed, actor.units, expected === version ? shown : null);
    if (isOnlyLookedAt(typed) || !read.input) return this.again(actor, response, typed, read, pondId);
    try {
      await this.ponds.update(actor.companyId, pondId, read.input, expected);
      response.redirect(303, `/ponds/${pondId}?did=saved`);
    } catch (error) {
      if (error instanceof PondChangedMeanwhileError) return this.conflict(actor, response, typed, read.input, error);
      await this.again(actor, response, typed, { input: read.input, faults: savingFaults(error) }, pondId);
    }
  }

  private async standing(actor: Actor, pondId: string): Promise<{ shown: ShownPond; version: number }> {
    const record = await this.ponds.get(actor.companyId, pondId);
    return { shown: shownPond(pondInputOf(record), actor.units), version: record.pond.version };
  }

  /** Both versions side by side; saving once more then goes over the newer one, knowingly. */
  private async conflict(
    actor: Actor,
    response: Response,
    typed: TypedPond,
    input: PondInput,
    error: PondChangedMeanwhileError,
  ) {
    const theirs = pondInputOf(await this.ponds.get(actor.companyId, error.pondId));
    const conflict = { sentence: error.message, differences: differences(input, theirs, actor.units) };
    const next = { ...typed, version: String(error.currentVersion) };
    response
      .status(409)
      .type('html')
      .send(await this.page(actor, next, { input, faults: {} }, error.pondId, conflict));
  }

  private async again(
    actor: Actor,
    response: Response,
    typed: TypedPond,
    read: ReadPond,
    pondId?: string,
  ): Promise<void> {
    const isLook = isOnlyLookedAt(typed);
    const shownRead = isLook && typed.more ? { ...read, faults: {} } : read;
    response
      .status(isLook ? 200 : 422)
      .type('html')
      .send(await this.page(actor, typed, shownRead, pondId));
  }

  private async page(
    actor: Actor,
    typed: TypedPond,
    read: ReadPond,
    pondId?: string,
    conflict: PondFormModel['conflict'] = null,
  ): Promise<string> {
    const { defaultDoneBy } = await this.companies.get(actor.companyId);
    return pondFormPage(actor, {
      title: pondId ? `Change ${typed.name || 'this pond'}` : 'New pond',
      action: pondId ? `/ponds/${pondId}/edit` : '/ponds/new',
      saveWords: conflict ? 'Save my version over it' : 'Save this pond',
      leaveTo: pondId ? `/ponds/${pondId}` : '/ponds',
      units: actor.units,
      typed,
      ...formFaults(read),
      rows: formRows(typed),
      rules: agreementRules(this.rules),
      agreementIntro: `Work that either can do falls to ${defaultDoneBy === 'company' ? 'your crew' : 'the homeowner'}, as set for the company. Mains wiring, lamp housings and vaults are always the crew’s.`,
      ...(await this.conclusions.of(actor, typed, read)),
      conflict,
    });
  }
}

/** Asked for a preview or for another row: nothing is saved. */
function isOnlyLookedAt(typed: TypedPond): boolean {
  return typed.preview !== undefined || typed.more !== undefined;
}

function withId(typed: TypedPond): TypedPond & { id: string } {
  return { ...typed, id: isUuid(typed.id) ? typed.id : newId() };
}

/** Faults the service finds on saving. Its field names are those of the record; the form has most of them too. */
function savingFaults(error: unknown): Record<string, string> {
  if (error instanceof PondInputRefusedError) {
    return Object.fromEntries(error.faults.map(({ field, allowed }) => [field, allowed.replace(/^[^:]{1,40}: /, '')]));
  }
  if (error instanceof DomainError) return { '': error.message };
  throw error;
}
