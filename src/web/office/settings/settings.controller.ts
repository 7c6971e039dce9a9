import {
  Body,
  Controller,
  ForbiddenException,
  Get,
  Header,
  Inject,
  Param,
  ParseUUIDPipe,
  Post,
  Query,
  Res,
} from '@nestjs/common';
import type { Response } from 'express';
import { type Actor, CompaniesService, type Member, PeopleService } from '../../../accounts/index.js';
import type { Dechlorinators } from '../../../config/products.js';
import { CARE_RULES, DECHLORINATORS } from '../../../config/tokens.js';
import type { CareRule } from '../../../core/care/care-rule.js';
import { VisitSettings } from '../../../visits/index.js';
import type { Option } from '../../forms/fields.js';
import { type FormFaults, faultsOf, typedFields } from '../../forms/form-faults.js';
import { CurrentActor, Roles } from '../../shell/access.js';
import { settingsPage } from './settings.view.js';
import {
  companyFields,
  dechlorinatorOptions,
  memberLines,
  ROLE_WORDS,
  ruleCards,
  type SettingsModel,
} from './settings.view-model.js';

const DID_WORDS: Readonly<Record<string, string>> = {
  company: 'The company is saved.',
  added: 'The person is added and may sign in.',
  ended: 'The membership has ended.',
  reports: 'The wish for reports is saved.',
};

@Controller('settings')
@Roles('owner', 'office')
export class SettingsController {
  constructor(
    private readonly companies: CompaniesService,
    private readonly people: PeopleService,
    private readonly visitSettings: VisitSettings,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
    @Inject(DECHLORINATORS) private readonly dechlorinators: Dechlorinators,
  ) {}

  @Get()
  @Header('Content-Type', 'text/html; charset=utf-8')
  async show(@CurrentActor() actor: Actor, @Query('did') did: unknown): Promise<string> {
    return settingsPage(actor, await this.model(actor), DID_WORDS[String(did)] ?? null);
  }

  @Post('company')
  async saveCompany(@CurrentActor() actor: Actor, @Res() response: Response, @Body() body: unknown): Promise<void> {
    const typed = typedFields(body);
    try {
      const { name, postalAddress, replyToEmail, phone, timeZone, dechlorinatorId } = typed;
      await this.companies.update(actor.companyId, {
        ...(name !== undefined && { name }),
        ...(postalAddress !== undefined && { postalAddress }),
        ...(replyToEmail !== undefined && { replyToEmail }),
        ...(phone !== undefined && { phone }),
        ...(timeZone !== undefined && { timeZone }),
        ...(this.dechlorinators.products.some(({ id }) => id === dechlorinatorId) && { dechlorinatorId }),
        units: typed.units === 'metric' ? 'metric' : 'us',
        defaultDoneBy: typed.defaultDoneBy === 'homeowner' ? 'homeowner' : 'company',
      });
      response.redirect(303, '/settings?did=company#company');
    } catch (error) {
      const model = await this.model(actor, { company: typed, companyFaults: faultsOf(error) });
      response
        .status(422)
        .type('html')
        .send(settingsPage(actor, model, null));
    }
  }

  @Post('people')
  async addPerson(@CurrentActor() actor: Actor, @Res() response: Response, @Body() body: unknown): Promise<void> {
    const typed = typedFields(body);
    try {
      const { name = '', email = '', phone = '', password = '' } = typed;
      const role = rolesFor(actor).find(({ value }) => value === typed.role)?.value as Member['role'] | undefined;
      if (!role) throw new ForbiddenException('Only an account owner makes another account owner.');
      await this.people.addMember({ companyId: actor.companyId, name, email, phone, password, role });
      response.redirect(303, '/settings?did=added#people');
    } catch (error) {
      const { password: _kept, ...shown } = typed;
      const model = await this.model(actor, { newMember: shown, memberFaults: faultsOf(error) });
      response
        .status(422)
        .type('html')
        .send(settingsPage(actor, model, null));
    }
  }

  @Post('people/:personId/ending')
  async endMembership(
    @CurrentActor() actor: Actor,
    @Res() response: Response,
    @Param('personId', ParseUUIDPipe) personId: string,
  ): Promise<void> {
    const line = memberLines(await this.people.membersOf(actor.companyId), actor).find(
      (one) => one.personId === personId,
    );
    if (line && !line.mayEnd) throw new ForbiddenException('An account owner is ended by another account owner.');
    await this.people.endMembership(actor.companyId, personId);
    response.redirect(303, '/settings?did=ended#people');
  }

  private async model(actor: Actor, typed: Partial<SettingsModel> = {}): Promise<SettingsModel> {
    const none: FormFaults = {};
    return {
      company: companyFields(await this.companies.get(actor.companyId)),
      companyFaults: none,
      dechlorinators: dechlorinatorOptions(this.dechlorinators.products),
      timeZones: Intl.supportedValuesOf('timeZone'),
      members: memberLines(await this.people.membersOf(actor.companyId), actor),
      newMember: { role: 'technician' },
      memberFaults: none,
      roles: rolesFor(actor),
      reportHoldHours: (await this.visitSettings.of(actor.companyId)).reportHoldHours,
      rules: ruleCards(this.rules),
      ...typed,
    };
  }
}

function rolesFor(actor: Actor): readonly Option[] {
  const roles: readonly Member['role'][] =
    actor.role === 'owner' ? ['technician', 'office', 'owner'] : ['technician', 'office'];
  return roles.map((role) => ({ value: role, label: ROLE_WORDS[role] }));
}
