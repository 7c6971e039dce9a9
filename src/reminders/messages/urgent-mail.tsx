import { listHeaders } from './list-headers.js';
import type { UrgentContent, WrittenMail } from './mail-content.js';
import { cautionBlock, mailDocument, paragraph, taskBlock } from './mail-layout.js';
import { cautionText, footingText, taskText, textDocument, wrapped } from './plain-text.js';

/** One urgent task, at once: the caution stands first. */
export function urgentMail(content: UrgentContent): WrittenMail {
  const { company, subject, task } = content;
  const rest = { ...task, cautions: [] };
  const html = mailDocument({
    ...content,
    body: (
      <>
        {cautionBlock(task.cautions)}
        {content.water.map(paragraph)}
        {taskBlock(rest, company)}
      </>
    ),
  });
  const plainText = textDocument([
    `${company.name}\n${content.about}`,
    wrapped(content.heading),
    cautionText(task.cautions),
    content.water.map((line) => wrapped(line)).join('\n'),
    taskText(rest, company.replyTo),
    footingText(content),
  ]);
  return { subject, html, plainText, headers: listHeaders(content.stopUrl, company.replyTo) };
}
