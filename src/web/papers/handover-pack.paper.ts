import type { Content } from 'pdfmake/interfaces.js';
import { cautionFrame, factRows, type Paper, printable, sectionTitle } from './paper.js';
import type { PaperSender } from './visit-report.paper.js';

export interface PackCaution {
  readonly first: string;
  readonly lines: readonly string[];
}

/** One task of the owner, with how it is done. */
export interface PackTask {
  readonly title: string;
  readonly when: string;
  readonly why: string;
  readonly amounts: readonly string[];
  readonly cautions: readonly PackCaution[];
  readonly steps: readonly string[];
}

interface Row {
  readonly name: string;
  readonly words: string;
  readonly more?: string;
}

/** What the owner of a new pond is handed over. */
export interface HandoverPack {
  readonly pondName: string;
  readonly place: string;
  readonly madeOn: string;
  readonly sender: PaperSender;
  readonly sheet: Paper['sheet'];
  readonly cautions: readonly PackCaution[];
  readonly asBuilt: readonly Row[];
  readonly equipment: readonly Row[];
  /** SVG; null until the pond has a calendar. */
  readonly wheel: string | null;
  readonly yearInWords: readonly string[];
  readonly calendar: readonly Row[];
  readonly ownerTasks: readonly PackTask[];
}

const WHEEL_WIDTH_PT = 430;

/** Cautions first; then the pond as built, its machines, its year, and the owner's tasks one by one. */
export function handoverPaper(pack: HandoverPack): Paper {
  const contact = [pack.sender.name, ...pack.sender.postalAddress.split('\n'), pack.sender.phone].filter(Boolean);
  return {
    title: `${pack.pondName}: handover pack`,
    foot: `${pack.pondName}, ${pack.madeOn}`,
    sheet: pack.sheet,
    content: [
      { text: printable(pack.sender.name), style: 'quiet' },
      { text: printable(`${pack.pondName}: handover pack`), style: 'title' },
      { text: printable([pack.place, pack.madeOn].filter(Boolean).join(', ')), margin: [0, 4, 0, 4] },
      sectionTitle('Whom to ask'),
      { text: printable(contact.join('\n')) },
      ...(pack.cautions.length === 0 ? [] : [sectionTitle('Before anything else')]),
      ...pack.cautions.map(({ first, lines }) => cautionFrame(first, lines)),
      sectionTitle('The pond as built'),
      factRows(pack.asBuilt),
      ...(pack.equipment.length === 0 ? [] : [sectionTitle('Machines'), factRows(pack.equipment)]),
      ...yearPage(pack),
      ...(pack.calendar.length === 0 ? [] : [sectionTitle('The first year'), factRows(pack.calendar)]),
      ...(pack.ownerTasks.length === 0 ? [] : [sectionTitle('What you do, and how', true)]),
      ...pack.ownerTasks.flatMap(howTo),
    ],
  };
}

function yearPage({ wheel, yearInWords }: HandoverPack): Content[] {
  if (wheel === null) return [];
  return [
    sectionTitle('The year of the pond', true),
    { svg: wheel, width: WHEEL_WIDTH_PT, alignment: 'center', margin: [0, 4, 0, 8] },
    ...yearInWords.map((text): Content => ({ text: printable(text), margin: [0, 0, 0, 3] })),
  ];
}

function howTo(task: PackTask): Content[] {
  return [
    { text: printable(task.title), bold: true, fontSize: 12, margin: [0, 12, 0, 0], headlineLevel: 2 },
    { text: printable([task.when, ...task.amounts].join(' ')), style: 'quiet' },
    ...task.cautions.map(({ first, lines }) => cautionFrame(first, lines)),
    ...(task.steps.length === 0
      ? []
      : [{ ol: task.steps.map(printable), margin: [0, 4, 0, 2] as [number, number, number, number] }]),
    { text: printable(task.why), margin: [0, 2, 0, 0] },
  ];
}
