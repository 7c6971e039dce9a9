import type { DatedLine, MailCaution, MailFooting, MailTask, MailVisit } from './mail-content.js';

const WIDTH = 72;

/** Blocks of text with one empty line between them; empty blocks are left out. */
export function textDocument(blocks: readonly (string | null | '')[]): string {
  return `${blocks.filter((block): block is string => Boolean(block)).join('\n\n')}\n`;
}

/** Breaks at spaces so that no line is longer than 72 characters, except for a word that is, such as an address. */
export function wrapped(text: string, indent = ''): string {
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) {
    let line = '';
    for (const word of paragraph.split(/\s+/).filter(Boolean)) {
      if (line !== '' && line.length + 1 + word.length > WIDTH - indent.length) {
        lines.push(line);
        line = word;
      } else line = line === '' ? word : `${line} ${word}`;
    }
    lines.push(line);
  }
  return lines.map((line) => (line === '' ? '' : indent + line)).join('\n');
}

export function titled(title: string, body: string): string | null {
  return body === '' ? null : `${title.toUpperCase()}\n${body}`;
}

export function taskText(task: MailTask, replyTo: string): string {
  const steps = task.steps.map((step, i) => `${i + 1}. ${wrapped(step, '   ').trimStart()}`);
  return [
    `* ${task.title.toUpperCase()}${task.pondName === null ? '' : ` (${task.pondName})`}`,
    wrapped(task.when),
    ...task.amounts.map((amount) => wrapped(amount)),
    cautionText(task.cautions),
    ...steps,
    wrapped(`Why now: ${task.why}`),
    `Done:    ${task.doneUrl}`,
    task.notNowUrl === null ? '' : `Not now: ${task.notNowUrl}`,
    replyTo === '' ? '' : 'Ask us:  reply to this mail',
  ]
    .filter(Boolean)
    .join('\n');
}

export function cautionText(cautions: readonly MailCaution[]): string {
  return cautions.map((caution) => wrapped(`! CAUTION. ${[caution.first, ...caution.more].join(' ')}`)).join('\n');
}

export function visitText(visits: readonly MailVisit[]): string | null {
  return titled(
    visits.length === 1 ? 'Next visit' : 'Next visits',
    visits.map((visit) => wrapped(`${visit.when}. ${visit.what}`)).join('\n'),
  );
}

export function datedText(title: string, lines: readonly DatedLine[]): string | null {
  return titled(title, lines.map((line) => wrapped(`${line.when}: ${line.what}`)).join('\n'));
}

export function footingText({ company, because, myPondUrl, stopUrl }: MailFooting): string {
  const address = company.postalAddress.split('\n').join(', ');
  const reply = company.replyTo === '' ? '' : ' Reply to this mail and we read it.';
  return [
    '-- ',
    wrapped(`${company.name}, ${address}.${company.phone === '' ? '' : ` ${company.phone}.`}${reply}`),
    wrapped(because),
    myPondUrl === null ? '' : `My pond, and another day or hour: ${myPondUrl}`,
    stopUrl === null ? '' : `Stop all mail: ${stopUrl}`,
  ]
    .filter(Boolean)
    .join('\n');
}
