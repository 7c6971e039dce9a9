import { Body, Controller, Get, HttpCode, Post, Res } from '@nestjs/common';
import type { Response } from 'express';
import { z } from 'zod';
import type { Actor } from '../../accounts/index.js';
import { Clock, instantFrom, instantText } from '../../platform/clock.js';
import { CheckIns } from '../../visits/index.js';
import { typedFields } from '../forms/form-faults.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { formToken, page } from '../shell/layout.js';
import { ZodPipe } from '../shell/zod.pipe.js';
import { clockWords } from '../technician/clock-words.js';

const CheckInSchema = z.strictObject({ dueAt: z.iso.datetime({ offset: true }) });
type CheckInBody = z.output<typeof CheckInSchema>;

const MINUTES = [30, 60, 90, 120, 180, 240] as const;

/** The check-in time of somebody who works alone: as a page, and as JSON for the phone. */
@Controller()
@Roles('technician', 'office', 'owner')
export class CheckInController {
  constructor(
    private readonly checkIns: CheckIns,
    private readonly clock: Clock,
  ) {}

  @Get('check-in')
  async show(@CurrentActor() actor: Actor, @Res() response: Response): Promise<void> {
    const running = await this.checkIns.running(actor.companyId, actor.personId);
    const dueAt = running && clockWords(instantFrom(running.dueAt).setZone(actor.timeZone).toFormat('HH:mm'));
    const isLate = running !== null && running.dueAt < this.clock.instant();
    response.type('html').send(checkInPage(actor, dueAt, isLate));
  }

  @Post('check-in')
  async set(@CurrentActor() actor: Actor, @Body() body: unknown, @Res() response: Response): Promise<void> {
    const asked = Number(typedFields(body).minutes);
    const minutes = MINUTES.find((one) => one === asked) ?? MINUTES[1];
    await this.checkIns.set(actor, instantText(this.clock.now().plus({ minutes })));
    response.redirect(303, '/check-in');
  }

  @Post('check-in/all-is-well')
  async done(@CurrentActor() actor: Actor, @Res() response: Response): Promise<void> {
    await this.checkIns.allIsWell(actor);
    response.redirect(303, '/check-in');
  }

  @Get('api/check-in')
  async read(@CurrentActor() actor: Actor): Promise<{ dueAt: string | null }> {
    return { dueAt: (await this.checkIns.running(actor.companyId, actor.personId))?.dueAt ?? null };
  }

  @Post('api/check-in')
  @HttpCode(200)
  async setTime(
    @CurrentActor() actor: Actor,
    @Body(new ZodPipe(CheckInSchema)) { dueAt }: CheckInBody,
  ): Promise<{ dueAt: string }> {
    return { dueAt: (await this.checkIns.set(actor, dueAt)).dueAt };
  }

  @Post('api/check-in/all-is-well')
  @HttpCode(200)
  async allIsWell(@CurrentActor() actor: Actor): Promise<{ dueAt: null }> {
    await this.checkIns.allIsWell(actor);
    return { dueAt: null };
  }
}

function checkInPage(actor: Actor, dueAt: string | null, isLate: boolean): string {
  return page({
    title: 'Working alone',
    actor,
    current: '/my-round',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/my-round">My round</a>
            </p>
            <h1>Working alone</h1>
            <p class="lead">
              Set a time by which you will say that all is well. If it passes, the office sees it and calls you. Where
              you are is not recorded.
            </p>
          </div>
        </div>
        {dueAt === null ? '' : running(actor, dueAt, isLate)}
        <form method="post" action="/check-in" class="inline-form">
          {formToken(actor)}
          <div class="f">
            <label for="minutes">{dueAt === null ? 'Check in within' : 'Another time: within'}</label>
            <span class="inp">
              <select id="minutes" name="minutes">
                {MINUTES.map((minutes) => (
                  <option value={String(minutes)} selected={minutes === 60} safe>
                    {minutes < 60 ? `${minutes} minutes` : minutes === 60 ? 'an hour' : `${minutes / 60} hours`}
                  </option>
                ))}
              </select>
            </span>
          </div>
          <button type="submit" class={dueAt === null ? 'btn first' : 'btn'}>
            Set the time
          </button>
        </form>
      </>
    ),
  });
}

function running(actor: Actor, dueAt: string, isLate: boolean): JSX.Element {
  return (
    <form method="post" action="/check-in/all-is-well">
      {formToken(actor)}
      <p class={isLate ? 'note act' : 'note'} safe>
        {isLate ? `You wanted to check in by ${dueAt}. The office sees it.` : `You will check in by ${dueAt}.`}
      </p>
      <p class="gap">
        <button type="submit" class="btn first">
          All is well
        </button>
      </p>
    </form>
  );
}
