import type { Response } from 'express';
import { htmlDocument } from '../shell/layout.js';

/** A page behind a signed link: no navigation, no session, nothing about other people. */
export function linkPage(options: {
  title: string;
  /** Company, for whom. */
  crumb: string;
  heading: string;
  lead?: string;
  isDemo?: boolean;
  isWide?: boolean;
  /** Names of bundled scripts; the page works without them. */
  scripts?: readonly string[];
  children?: JSX.Element | JSX.Element[] | string;
}): string {
  const { title, crumb, heading, lead, isDemo, isWide, scripts = [], children } = options;
  return htmlDocument({
    title,
    scripts,
    body: (
      <>
        {isDemo ? <p class="demo">Demo. All people and firms are invented.</p> : ''}
        <main class={isWide ? 'page home' : 'page home slip'} id="content">
          <div class="head">
            <div>
              <p class="crumb" safe>
                {crumb}
              </p>
              <h1 safe>{heading}</h1>
              {lead ? (
                <p class="lead" safe>
                  {lead}
                </p>
              ) : (
                ''
              )}
            </div>
          </div>
          {(children ?? '') as 'safe'}
        </main>
      </>
    ),
  });
}

/** The address of a link page is a secret: it must not be kept, indexed, or told to other sites. */
export function sendLinkPage(response: Response, html: string, status = 200): void {
  setLinkHeaders(response);
  response.status(status).type('html').send(html);
}

/** After a post: back to a page by GET, so that a reload repeats nothing. */
export function goTo(response: Response, path: string): void {
  setLinkHeaders(response);
  response.redirect(303, path);
}

function setLinkHeaders(response: Response): void {
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Cache-Control', 'no-store');
  response.setHeader('X-Robots-Tag', 'noindex');
}
