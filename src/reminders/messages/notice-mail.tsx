import { listHeaders } from './list-headers.js';
import type { VisitNoticeContent, WrittenMail } from './mail-content.js';
import { mailDocument, paragraph } from './mail-layout.js';
import { footingText, textDocument, wrapped } from './plain-text.js';

/** A short mail of a few sentences: a visit was published, here is a fresh link. */
export function noticeMail(content: VisitNoticeContent): WrittenMail {
  const { company, subject } = content;
  const html = mailDocument({ ...content, body: <>{content.lines.map(paragraph)}</> });
  const plainText = textDocument([
    `${company.name}\n${content.about}`,
    wrapped(content.heading),
    ...content.lines.map((line) => wrapped(line)),
    footingText(content),
  ]);
  return { subject, html, plainText, headers: listHeaders(content.stopUrl, company.replyTo) };
}
