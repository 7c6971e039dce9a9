import { type ArgumentsHost, Catch, type ExceptionFilter, HttpException, Logger } from '@nestjs/common';
import type { Response } from 'express';
import { DomainError } from '../../core/errors.js';
import { newId } from '../../platform/ids.js';
import type { RequestWithActor } from './access.js';
import { InvalidFormError } from './invalid-form.error.js';
import { page } from './layout.js';

/** HTTP status of a domain error's code; everything not named here is 422. */
const STATUS_OF_CODE: Readonly<Record<string, number>> = {
  'not-found': 404,
  'stale-version': 409,
  'visit-already-closed': 409,
  'too-many-attempts': 429,
  'sign-in-refused': 401,
  'photo-too-large': 413,
  'photo-kind': 415,
  'storage-full': 507,
};

interface Answer {
  status: number;
  title: string;
  detail: string;
  errors?: readonly { pointer: string; detail: string }[];
  code?: string;
}

/** The one place where errors become answers: problem+json (RFC 9457) for programs, a plain page for people. */
@Catch()
export class DomainErrorFilter implements ExceptionFilter {
  private readonly logger = new Logger('web');

  catch(error: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<RequestWithActor>();
    const response = host.switchToHttp().getResponse<Response>();
    const answer = this.answerTo(error);
    const reference = newId();
    if (answer.status >= 500) this.logger.error({ reference, path: withoutToken(request.path), error });
    if (response.headersSent) return;

    const retryAfterS = (error as { retryAfterS?: number }).retryAfterS;
    if (retryAfterS) response.setHeader('Retry-After', String(Math.ceil(retryAfterS)));
    const wantsPage = !request.path.startsWith('/api/') && request.accepts(['html', 'json']) === 'html';
    if (wantsPage && answer.status === 401 && request.method === 'GET') {
      response.redirect(303, `/sign-in?to=${encodeURIComponent(request.originalUrl)}`);
      return;
    }
    response.status(answer.status);
    if (wantsPage) response.type('html').send(errorPage(answer, request, reference));
    else {
      response.type('application/problem+json').send(
        JSON.stringify({
          type: 'about:blank',
          status: answer.status,
          title: answer.title,
          detail: answer.detail,
          ...(answer.code && { code: answer.code }),
          ...(answer.errors && { errors: answer.errors }),
          instance: `urn:uuid:${reference}`,
        }),
      );
    }
  }

  private answerTo(error: unknown): Answer {
    if (error instanceof InvalidFormError)
      return { status: 422, title: 'Some fields cannot be used', detail: error.message, errors: error.faults };
    if (error instanceof DomainError) {
      const status = STATUS_OF_CODE[error.code] ?? 422;
      return { status, title: TITLES[status] ?? 'This cannot be done', detail: error.message, code: error.code };
    }
    if (error instanceof HttpException) {
      return {
        status: error.getStatus(),
        title: TITLES[error.getStatus()] ?? 'This cannot be done',
        detail: error.message,
      };
    }
    // Errors of the body parser are no HttpExceptions: they carry `expose` and `status`.
    const { expose, status, message } = error as { expose?: boolean; status?: number; message?: string };
    if (expose && status) return { status, title: TITLES[status] ?? 'This cannot be read', detail: message ?? '' };
    return {
      status: 500,
      title: 'Something went wrong here',
      detail: 'The fault is ours and has been written down. What was saved before stays saved.',
    };
  }
}

const TITLES: Readonly<Record<number, string>> = {
  400: 'This cannot be read',
  401: 'Sign in first',
  403: 'Not for this sign-in',
  404: 'There is nothing here',
  409: 'Someone was faster',
  413: 'This is too large',
  415: 'This kind of file is not read here',
  422: 'This cannot be used as it is',
  429: 'Too many tries',
  507: 'There is no room left',
};

/** A signed link carries its token in the path: it is not for the log. */
function withoutToken(path: string): string {
  return path.replace(/^(\/l\/[^/]+\/).+/, '$1…');
}

function errorPage(answer: Answer, request: RequestWithActor, reference: string): string {
  return page({
    title: answer.title,
    actor: request.actor ?? null,
    children: (
      <>
        <div class="head">
          <div>
            <h1 safe>{answer.title}</h1>
            <p class="lead" safe>
              {answer.detail}
            </p>
          </div>
        </div>
        {answer.errors ? (
          <ul class="faults">
            {answer.errors.map((fault) => (
              <li>
                <b safe>{fault.pointer.replace(/^#\//, '').replaceAll('/', ', ')}</b> <span safe>{fault.detail}</span>
              </li>
            ))}
          </ul>
        ) : (
          ''
        )}
        {answer.status >= 500 ? <p class="fine" safe>{`Reference ${reference}`}</p> : ''}
        <p>
          <a href="/">Back to the start</a>
        </p>
      </>
    ),
  });
}
