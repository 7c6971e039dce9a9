import { listHeaders } from './list-headers.js';
import type { ReadingLine, VisitReportContent, WrittenMail } from './mail-content.js';
import { datedList, mailDocument, paragraph, sectionHeading, visitLines } from './mail-layout.js';
import { STYLE } from './mail-style.js';
import { datedText, footingText, textDocument, titled, visitText, wrapped } from './plain-text.js';

/** What was done on a visit, what was measured and what it means, what to watch. */
export function visitReportMail(content: VisitReportContent): WrittenMail {
  const { company, subject } = content;
  const html = mailDocument({
    ...content,
    body: (
      <>
        {doneList(content.done)}
        {readingList(content.readings)}
        {content.note === '' ? '' : sectionHeading('Note')}
        {content.note === '' ? '' : content.note.split('\n').map(paragraph)}
        {content.watch.length === 0 ? '' : sectionHeading('What to watch')}
        {content.watch.map(paragraph)}
        {visitLines(content.visits)}
        {datedList('Coming up', content.comingUp)}
        {content.reportUrl === null ? '' : reportLink(content.reportUrl)}
      </>
    ),
  });
  const plainText = textDocument([
    `${company.name}\n${content.about}`,
    wrapped(content.heading),
    titled('What was done', content.done.map((line) => wrapped(`- ${doneText(line)}`)).join('\n')),
    titled(
      'What was measured',
      content.readings.map((line) => wrapped(`- ${line.name}: ${line.value}, ${line.meaning}`)).join('\n'),
    ),
    titled('Note', wrapped(content.note)),
    titled('What to watch', content.watch.map((line) => wrapped(line)).join('\n')),
    visitText(content.visits),
    datedText('Coming up', content.comingUp),
    content.reportUrl === null ? null : `This report as a page: ${content.reportUrl}`,
    footingText(content),
  ]);
  return { subject, html, plainText, headers: listHeaders(content.stopUrl, company.replyTo) };
}

type DoneLine = VisitReportContent['done'][number];

function doneText({ title, outcome, remark }: DoneLine): string {
  return remark === '' ? `${title}: ${outcome}` : `${title}: ${outcome}. ${remark}`;
}

function doneList(done: readonly DoneLine[]): JSX.Element | '' {
  if (done.length === 0) return '';
  return (
    <>
      {sectionHeading('What was done')}
      <table role="presentation" style={STYLE.list}>
        {done.map((line) => (
          <tr>
            <td class="m-li" style={STYLE.listText}>
              <span safe>{line.title}</span>
              {line.remark === '' ? (
                ''
              ) : (
                <>
                  <br />
                  <span class="m-quiet" style={STYLE.quiet} safe>
                    {line.remark}
                  </span>
                </>
              )}
            </td>
            <td class="m-li" style={STYLE.listOutcome} safe>
              {line.outcome}
            </td>
          </tr>
        ))}
      </table>
    </>
  );
}

function readingList(readings: readonly ReadingLine[]): JSX.Element | '' {
  if (readings.length === 0) return '';
  return (
    <>
      {sectionHeading('What was measured')}
      <table role="presentation" style={STYLE.list}>
        {readings.map((line) => (
          <tr>
            <td class="m-li" style={STYLE.listText} safe>
              {line.name}
            </td>
            <td class="m-li" style={STYLE.listRight}>
              <b safe>{line.value}</b>
              <br />
              <span safe>{`${line.needsAction ? '▲' : '✓'} ${line.meaning}`}</span>
            </td>
          </tr>
        ))}
      </table>
    </>
  );
}

function reportLink(url: string): JSX.Element {
  return (
    <p style={STYLE.pSpaced}>
      <a class="m-a" style={STYLE.link} href={url}>
        This report as a page
      </a>
    </p>
  );
}
