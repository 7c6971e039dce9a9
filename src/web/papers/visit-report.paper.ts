import type { Content } from 'pdfmake/interfaces.js';
import { longDay, type SpokenVisit } from '../../reminders/index.js';
import { factRows, losesSigns, type Paper, printable, sectionTitle } from './paper.js';

/** Whose paper it is, and whom to ask. */
export interface PaperSender {
  readonly name: string;
  readonly postalAddress: string;
  readonly phone: string;
}

const PHOTO_WIDTH_PT = 240;
/** Further photos stand on the report's page. */
export const PHOTOS_ON_PAPER = 8;

/** The report of a visit: what was done, what was measured and what it means, what to watch, what comes next. */
export function visitReportPaper(report: {
  readonly visit: SpokenVisit;
  readonly sender: PaperSender;
  readonly sheet: Paper['sheet'];
  /** JPEG, at most `PHOTOS_ON_PAPER`. */
  readonly photos: readonly Buffer[];
  /** In words, e.g. "Tuesday 6 October, between 8 and 10". */
  readonly nextVisit: string | null;
}): Paper {
  const { visit, sender, photos } = report;
  const day = longDay(visit.day);
  const who = visit.technicianName === null ? '' : `, by ${visit.technicianName}`;
  const texts = [visit.note, ...visit.watch, ...visit.done.flatMap(({ title, remark }) => [title, remark])];
  return {
    title: `${visit.pondName}, visit on ${day}`,
    foot: `${visit.pondName}, visit on ${day}`,
    sheet: report.sheet,
    content: [
      { text: printable(sender.name), style: 'quiet' },
      {
        text: printable(`${visit.isCorrected ? 'Corrected report' : 'Report'} of the visit on ${day}`),
        style: 'title',
      },
      { text: printable(`${visit.pondName}, ${visit.town}${who}.`), margin: [0, 4, 0, 0] },
      ...doneRows(visit),
      ...readingRows(visit),
      ...lines('Note', visit.note === '' ? [] : visit.note.split('\n')),
      ...lines('What to watch', visit.watch),
      ...lines('Next visit', report.nextVisit === null ? [] : [report.nextVisit]),
      ...photoRows(photos),
      ...(texts.some(losesSigns) ? [signsLost()] : []),
      {
        text: printable([sender.name, ...sender.postalAddress.split('\n'), sender.phone].filter(Boolean).join(', ')),
        style: 'small',
        margin: [0, 20, 0, 0],
      },
    ],
  };
}

function doneRows({ done }: SpokenVisit): Content[] {
  if (done.length === 0) return [];
  const rows = done.map(({ title, outcome, remark }) => ({ name: title, words: outcome, more: remark }));
  return [sectionTitle('What was done'), factRows(rows)];
}

function readingRows({ readings }: SpokenVisit): Content[] {
  if (readings.length === 0) return [];
  const rows = readings.map(({ name, value, meaning }) => ({ name, words: value, more: meaning }));
  return [sectionTitle('What was measured'), factRows(rows)];
}

function lines(title: string, texts: readonly string[]): Content[] {
  if (texts.length === 0) return [];
  const paragraphs = texts.map((text): Content => ({ text: printable(text), margin: [0, 0, 0, 4] }));
  return [sectionTitle(title), ...paragraphs];
}

function photoRows(photos: readonly Buffer[]): Content[] {
  if (photos.length === 0) return [];
  const images = photos.slice(0, PHOTOS_ON_PAPER).map((jpeg) => ({
    image: `data:image/jpeg;base64,${jpeg.toString('base64')}`,
    fit: [PHOTO_WIDTH_PT, PHOTO_WIDTH_PT] as [number, number],
    margin: [0, 0, 8, 8] as [number, number, number, number],
  }));
  const pairs = images.flatMap((image, i): Content[] => {
    const second = images[i + 1];
    return i % 2 === 0 ? [{ columns: second ? [image, second] : [image], unbreakable: true }] : [];
  });
  return [sectionTitle('Photos'), ...pairs];
}

function signsLost(): Content {
  return {
    text: 'Some signs of this report cannot be printed on paper here and stand as dots. The page of the report has them all.',
    style: 'small',
    margin: [0, 12, 0, 0],
  };
}
