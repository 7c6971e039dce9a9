import { Body, Controller, Get, Inject, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import {
  type FirstAccount,
  FirstAccountService,
  mailAddress,
  oneLine,
  SessionsService,
  severalLines,
  timeZoneName,
} from '../../accounts/index.js';
import { SETTINGS, type Settings } from '../../config/index.js';
import { Clock } from '../../platform/clock.js';
import { faultsOf, typedFields } from '../forms/form-faults.js';
import { Public } from '../shell/access.js';
import { beginInBrowser } from './begin-in-browser.js';
import { firstAccountPage } from './first-account.view.js';

/** An empty installation asks whoever opens it first for its company and account owner. */
@Controller('first-account')
@Public()
export class FirstAccountController {
  constructor(
    private readonly firstAccount: FirstAccountService,
    private readonly sessions: SessionsService,
    private readonly clock: Clock,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  @Get()
  async show(@Res() response: Response): Promise<void> {
    if (!(await this.firstAccount.isNeeded())) return response.redirect(303, '/sign-in');
    response.type('html').send(firstAccountPage({ typed: {}, faults: {}, timeZones: knownTimeZones() }));
  }

  @Post()
  async create(@Res() response: Response, @Body() body: unknown): Promise<void> {
    const typed = typedFields(body);
    try {
      const made = await this.firstAccount.create(accountOf(typed));
      const signedIn = await this.sessions.start(made.personId, made.companyId, 'owner');
      beginInBrowser(response, signedIn, this.clock.now(), this.settings);
      response.redirect(303, '/');
    } catch (error) {
      const faults = faultsOf(error);
      response
        .status(422)
        .type('html')
        .send(firstAccountPage({ typed, faults, timeZones: knownTimeZones() }));
    }
  }
}

/** Checked here by the names of the form: the company and the person both have a `name`. */
function accountOf(typed: Readonly<Record<string, string>>): FirstAccount {
  return {
    companyName: oneLine('companyName', typed.companyName ?? ''),
    postalAddress: severalLines('postalAddress', typed.postalAddress ?? '', 400),
    timeZone: timeZoneName(typed.timeZone ?? ''),
    units: typed.units === 'metric' ? 'metric' : 'us',
    name: oneLine('name', typed.name ?? ''),
    email: mailAddress(typed.email ?? ''),
    password: typed.password ?? '',
  };
}

function knownTimeZones(): readonly string[] {
  return Intl.supportedValuesOf('timeZone');
}
