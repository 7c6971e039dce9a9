import type { DatedLine, MailCaution, MailFooting, MailTask, MailVisit } from './mail-content.js';
import { DARK, STYLE } from './mail-style.js';

/** The whole document: a table of 600 pixels on its ground, company and subject line on top, address at the end. */
export function mailDocument(
  mail: MailFooting & { subject: string; about: string; heading: string; body: JSX.Element },
) {
  const { subject, company, about, heading, body } = mail;
  return ('<!doctype html>' +
  (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title safe>{subject}</title>
        <style>{DARK}</style>
      </head>
      <body style={STYLE.body}>
        <table role="presentation" class="m-ground" style={STYLE.ground}>
          <tr>
            <td class="m-pad" align="center" style={STYLE.pad}>
              <table role="presentation" class="m-sheet" align="center" width="600" style={STYLE.sheet}>
                <tr>
                  <td class="m-top" align="left" style={STYLE.top}>
                    <span style={STYLE.word} safe>
                      {company.name}
                    </span>
                    <span class="m-quiet" style={STYLE.quiet} safe>
                      {about}
                    </span>
                  </td>
                </tr>
                <tr>
                  <td class="m-in" align="left" style={STYLE.inside}>
                    <h1 class="m-h" style={STYLE.h1} safe>
                      {heading}
                    </h1>
                    {body}
                    {myPond(mail.myPondUrl)}
                  </td>
                </tr>
                <tr>
                  <td class="m-foot" align="left" style={STYLE.foot}>
                    {footing(mail)}
                  </td>
                </tr>
              </table>
            </td>
          </tr>
        </table>
      </body>
    </html>
  )) as string;
}

export function paragraph(text: string): JSX.Element {
  return (
    <p style={STYLE.p} safe>
      {text}
    </p>
  );
}

export function sectionHeading(text: string): JSX.Element {
  return (
    <h2 class="m-h" style={STYLE.h2Spaced} safe>
      {text}
    </h2>
  );
}

/** One thing to do: how much, caution before the steps, why now, what to press. */
export function taskBlock(task: MailTask, company: MailFooting['company']): JSX.Element {
  return (
    <table role="presentation" class="m-task" style={STYLE.task}>
      <tr>
        <td class="m-edge" style={STYLE.edge}>
          &nbsp;
        </td>
        <td class="m-task-in" align="left" style={STYLE.taskIn}>
          <h2 class="m-h" style={STYLE.h2} safe>
            {task.title}
          </h2>
          <p class="m-quiet" style={STYLE.small} safe>
            {task.pondName === null ? task.when : `${task.pondName}. ${task.when}`}
          </p>
          {task.amounts.map((amount) => (
            <p class="m-amt" style={STYLE.amount} safe>
              {amount}
            </p>
          ))}
          {cautionBlock(task.cautions)}
          {stepTable(task.steps)}
          <p style={STYLE.p}>
            <b>Why now.</b> <span safe>{task.why}</span>
          </p>
          <table role="presentation" style={STYLE.buttons}>
            <tr>
              <td class="m-b m-b1" style={STYLE.first}>
                <a href={task.doneUrl} style={STYLE.firstLink}>
                  Done
                </a>
              </td>
              {task.notNowUrl === null ? '' : notNowCells(task.notNowUrl)}
              {company.replyTo === '' ? '' : askCells(company.replyTo, task.title)}
            </tr>
          </table>
        </td>
      </tr>
    </table>
  );
}

function notNowCells(url: string): JSX.Element {
  return (
    <>
      <td style={STYLE.gap}>&nbsp;</td>
      <td class="m-b m-b2" style={STYLE.second}>
        <a href={url} style={STYLE.secondLink}>
          Not now
        </a>
      </td>
    </>
  );
}

function askCells(replyTo: string, title: string): JSX.Element {
  return (
    <>
      <td style={STYLE.gap}>&nbsp;</td>
      <td class="m-b m-b3" style={STYLE.third}>
        <a href={askUrl(replyTo, title)} style={STYLE.thirdLink}>
          Ask us
        </a>
      </td>
    </>
  );
}

export function askUrl(replyTo: string, title: string): string {
  return `mailto:${encodeURIComponent(replyTo).replace('%40', '@')}?subject=${encodeURIComponent(`Question: ${title}`)}`;
}

/** The first line of each says what to do; never left out, always before the steps. */
export function cautionBlock(cautions: readonly MailCaution[]): JSX.Element | '' {
  if (cautions.length === 0) return '';
  return (
    <table role="presentation" class="m-caut" style={STYLE.caution}>
      {cautions.map((caution) => (
        <tr>
          <td class="m-ci" style={STYLE.cautionSign}>
            ▲
          </td>
          <td class="m-ct" style={STYLE.cautionText}>
            <b safe>{caution.first}</b> <span safe>{caution.more.join(' ')}</span>
          </td>
        </tr>
      ))}
    </table>
  );
}

function stepTable(steps: readonly string[]): JSX.Element | '' {
  if (steps.length === 0) return '';
  return (
    <table role="presentation" style={STYLE.steps}>
      {steps.map((step, i) => (
        <tr>
          <td class="m-n" style={STYLE.stepNumber} safe>
            {String(i + 1)}
          </td>
          <td class="m-step" style={STYLE.stepText} safe>
            {step}
          </td>
        </tr>
      ))}
    </table>
  );
}

export function visitLines(visits: readonly MailVisit[]): JSX.Element | '' {
  if (visits.length === 0) return '';
  return (
    <>
      {sectionHeading(visits.length === 1 ? 'Next visit' : 'Next visits')}
      {visits.map((visit) => (
        <p style={STYLE.p}>
          <b safe>{`${visit.when}.`}</b> <span safe>{visit.what}</span>
        </p>
      ))}
    </>
  );
}

export function datedList(title: string, lines: readonly DatedLine[]): JSX.Element | '' {
  if (lines.length === 0) return '';
  return (
    <>
      {sectionHeading(title)}
      <table role="presentation" style={STYLE.list}>
        {lines.map((line) => (
          <tr>
            <td class="m-ld" style={STYLE.listDate} safe>
              {line.when}
            </td>
            <td class="m-li" style={STYLE.listText} safe>
              {line.what}
            </td>
          </tr>
        ))}
      </table>
    </>
  );
}

function myPond(url: string | null): JSX.Element | '' {
  if (url === null) return '';
  return (
    <p style={STYLE.pSpaced}>
      <a class="m-a" style={STYLE.link} href={url}>
        Open my pond
      </a>
      , with your tasks, your readings and the year.
    </p>
  );
}

function footing({ company, because, myPondUrl, stopUrl }: MailFooting): JSX.Element {
  const address = company.postalAddress.split('\n').join(', ');
  const reply = company.replyTo === '' ? '' : ' Reply to this mail and we read it.';
  return (
    <>
      <span safe>{`${company.name}, ${address}.${company.phone === '' ? '' : ` ${company.phone}.`}${reply}`}</span>
      <br />
      <span safe>{because}</span>
      {stopUrl === null ? '' : stopLinks(myPondUrl, stopUrl)}
    </>
  );
}

function stopLinks(myPondUrl: string | null, stopUrl: string): JSX.Element {
  return (
    <>
      <br />
      {myPondUrl === null ? (
        ''
      ) : (
        <>
          <a class="m-a" style={STYLE.link} href={`${myPondUrl}#wishes`}>
            Another day or hour
          </a>
          &nbsp;&nbsp;
        </>
      )}
      <a class="m-a" style={STYLE.link} href={stopUrl}>
        Stop all mail
      </a>
    </>
  );
}
