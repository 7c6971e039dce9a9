import { Body, Controller, Get, Inject, Post, Query, Req, Res } from '@nestjs/common';
import * as cookie from 'cookie';
import type { Response } from 'express';
import { FirstAccountService, SessionsService } from '../../accounts/index.js';
import { SETTINGS, type Settings } from '../../config/index.js';
import { DomainError } from '../../core/errors.js';
import { Clock } from '../../platform/clock.js';
import { ownPath, typedFields } from '../forms/form-faults.js';
import { Public, type RequestWithActor } from '../shell/access.js';
import { clearSessionCookie, SESSION_COOKIE } from '../shell/session.middleware.js';
import { beginInBrowser } from './begin-in-browser.js';
import { signInPage } from './sign-in.view.js';

@Controller()
@Public()
export class SignInController {
  constructor(
    private readonly sessions: SessionsService,
    private readonly firstAccount: FirstAccountService,
    private readonly clock: Clock,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  @Get('sign-in')
  async show(
    @Req() request: RequestWithActor,
    @Res() response: Response,
    @Query('to') to: unknown,
    @Query('did') did: unknown,
  ): Promise<void> {
    if (request.actor) return response.redirect(303, ownPath(to));
    if (await this.firstAccount.isNeeded()) return response.redirect(303, '/first-account');
    const note = did === 'signed-out' ? 'You are signed out.' : undefined;
    response.type('html').send(signInPage({ email: '', to: ownPath(to), ...(note && { note }) }));
  }

  @Post('sign-in')
  async signIn(@Req() request: RequestWithActor, @Res() response: Response, @Body() body: unknown): Promise<void> {
    const { email = '', password = '', to } = typedFields(body);
    try {
      const signedIn = await this.sessions.signIn(email, password, { address: request.ip ?? '' });
      beginInBrowser(response, signedIn, this.clock.now(), this.settings);
      response.redirect(303, ownPath(to));
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const retryAfterS = (error as { retryAfterS?: number }).retryAfterS;
      if (retryAfterS) response.setHeader('Retry-After', String(Math.ceil(retryAfterS)));
      response.status(retryAfterS ? 429 : 401).type('html');
      response.send(signInPage({ email, to: ownPath(to), fault: error.message }));
    }
  }

  @Post('sign-out')
  async signOut(@Req() request: RequestWithActor, @Res() response: Response): Promise<void> {
    const token = cookie.parse(request.headers.cookie ?? '')[SESSION_COOKIE];
    if (token) await this.sessions.signOut(token);
    clearSessionCookie(response);
    response.redirect(303, '/sign-in?did=signed-out');
  }
}
