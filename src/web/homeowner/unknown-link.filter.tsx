import { type ArgumentsHost, Catch, type ExceptionFilter } from '@nestjs/common';
import type { Response } from 'express';
import { linkPage, sendLinkPage } from './link-page.js';

/** A link that is unknown, bent, ended, or for another purpose: all the same to whoever opens it. */
export class UnknownLinkError extends Error {}

@Catch(UnknownLinkError)
export class UnknownLinkFilter implements ExceptionFilter {
  catch(_error: UnknownLinkError, host: ArgumentsHost): void {
    sendLinkPage(host.switchToHttp().getResponse<Response>(), unknownLinkPage(), 404);
  }
}

function unknownLinkPage(): string {
  return linkPage({
    title: 'This link opens nothing',
    crumb: 'Tarnkeep',
    heading: 'This link opens nothing',
    lead: 'It may have ended, or been cut short on its way. The newest mail about your pond has links that work.',
    children: (
      <form class="slip-form" method="post" action="/l/fresh-link">
        <div class="f">
          <label for="email">Your email address</label>
          <span class="inp">
            <input id="email" name="email" type="email" autocomplete="email" required maxlength="254" />
          </span>
          <span class="hint">A fresh link goes to the address we have on file, and to no other.</span>
        </div>
        <p class="acts">
          <button type="submit" class="btn first">
            Send me a fresh link
          </button>
        </p>
      </form>
    ),
  });
}

/** The same words whether the address is known or not. */
export function freshLinkSentPage(): string {
  return linkPage({
    title: 'Look into your mail',
    crumb: 'Tarnkeep',
    heading: 'Look into your mail',
    lead: 'If the address is on file, a mail with a fresh link is on its way to it. It comes at most once an hour.',
  });
}
