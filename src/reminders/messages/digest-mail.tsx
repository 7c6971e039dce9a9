import { listHeaders } from './list-headers.js';
import type { DigestContent, RoutineLine, SeasonNote, WrittenMail } from './mail-content.js';
import { datedList, mailDocument, paragraph, sectionHeading, taskBlock, visitLines } from './mail-layout.js';
import { STYLE } from './mail-style.js';
import { datedText, footingText, taskText, textDocument, titled, visitText, wrapped } from './plain-text.js';

/** The weekly mail. */
export function digestMail(content: DigestContent): WrittenMail {
  const { company, subject } = content;
  const html = mailDocument({
    ...content,
    body: (
      <>
        {content.water.map(paragraph)}
        {content.tasks.map((task) => taskBlock(task, company))}
        {routineLines(content.routine)}
        {visitLines(content.visits)}
        {datedList('Coming up', content.comingUp)}
        {content.season === null ? '' : seasonBlock(content.season)}
      </>
    ),
  });
  const plainText = textDocument([
    `${company.name}\n${content.about}`,
    wrapped(content.heading),
    content.water.map((line) => wrapped(line)).join('\n'),
    ...content.tasks.map((task) => taskText(task, company.replyTo)),
    titled('Every week', content.routine.map((line) => wrapped(`${routineText(line)}`)).join('\n')),
    visitText(content.visits),
    datedText('Coming up', content.comingUp),
    content.season === null ? null : titled(content.season.title, wrapped(content.season.sentences.join(' '))),
    footingText(content),
  ]);
  const pictures = content.season === null ? [] : [content.season.picture];
  return { subject, html, plainText, pictures, headers: listHeaders(content.stopUrl, company.replyTo) };
}

/** Two sentences, and the year as a picture that may be missing. */
function seasonBlock({ title, sentences, picture, pictureWords, pictureWidthPx }: SeasonNote): JSX.Element {
  return (
    <>
      {sectionHeading(title)}
      {paragraph(sentences.join(' '))}
      <img
        src={`cid:${picture.cid}`}
        alt={pictureWords}
        width={String(pictureWidthPx)}
        height={String(pictureWidthPx)}
        style={STYLE.picture}
      />
      <p class="m-quiet" style={STYLE.caption}>
        The year of the water: dark is warm, pale is cold, and the hand is today.
      </p>
    </>
  );
}

/** Feed, skim, top up: one standing line each with this week's amounts. */
function routineLines(routine: readonly RoutineLine[]): JSX.Element | '' {
  if (routine.length === 0) return '';
  return (
    <>
      {sectionHeading('Every week')}
      <table role="presentation" style={STYLE.list}>
        {routine.map((line) => (
          <tr>
            <td class="m-li" style={STYLE.listText}>
              <b safe>{line.title}</b>
              {line.pondName === null ? '' : <span safe>{`, ${line.pondName}`}</span>}
              {line.amounts.map((amount) => (
                <>
                  <br />
                  <span safe>{amount}</span>
                </>
              ))}
            </td>
          </tr>
        ))}
      </table>
    </>
  );
}

function routineText({ title, pondName, amounts }: RoutineLine): string {
  const name = pondName === null ? title : `${title}, ${pondName}`;
  return amounts.length === 0 ? `- ${name}` : `- ${name}: ${amounts.join(' ')}`;
}
