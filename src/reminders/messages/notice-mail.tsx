import { listHeaders } from './list-headers.js';
import type { VisitNoticeContent, WrittenMail } from './mail-content.js';
import { mailDocument, paragraph } from './mail-layout.js';
import { STYLE } from './mail-style.js';
import { footingText, textDocument, wrapped } from './plain-text.js';

const ANSWER_WORDS = 'Say whether this suits you';

/** A short mail of a few sentences: a visit was published, here is a fresh link. */
export function noticeMail(content: VisitNoticeContent): WrittenMail {
  const { company, subject } = content;
  const html = mailDocument({
    ...content,
    body: (
      <>
        {content.lines.map(paragraph)}
        {content.answerUrl ? answerLink(content.answerUrl) : ''}
      </>
    ),
  });
  const plainText = textDocument([
    `${company.name}\n${content.about}`,
    wrapped(content.heading),
    ...content.lines.map((line) => wrapped(line)),
    content.answerUrl ? `${ANSWER_WORDS}: ${content.answerUrl}` : null,
    footingText(content),
  ]);
  return { subject, html, plainText, headers: listHeaders(content.stopUrl, company.replyTo) };
}

function answerLink(url: string): JSX.Element {
  return (
    <table role="presentation" style={STYLE.buttons}>
      <tr>
        <td class="m-b m-b1" style={STYLE.first}>
          <a href={url} style={STYLE.firstLink}>
            {ANSWER_WORDS}
          </a>
        </td>
      </tr>
    </table>
  );
}
