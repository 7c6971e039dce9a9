import type { Content, TDocumentDefinitions } from 'pdfmake/interfaces.js';

/** A paper before it is set: what stands on it, and what its foot says. */
export interface Paper {
  readonly title: string;
  /** At the left of every foot; page n of m stands at the right. */
  readonly foot: string;
  readonly content: Content[];
  /** Narrow sheets of the United States, else A4. */
  readonly sheet: 'LETTER' | 'A4';
}

/** The faces that every reader of PDF brings along: nothing is embedded, and no file is read. */
const FACES = {
  normal: 'Helvetica',
  bold: 'Helvetica-Bold',
  italics: 'Helvetica-Oblique',
  bolditalics: 'Helvetica-BoldOblique',
} as const;
const MARGIN_PT = 48;
const INK = '#1c2a2d';
const QUIET = '#4d5d60';
const WATER = '#1f5f6b';

/**
 * Sets a paper as PDF. The setter is loaded with the first paper; it may open no address and no file.
 * @see PDF core fonts: ISO 32000-1, 9.6.2.2
 */
export async function printedPaper(paper: Paper): Promise<Buffer> {
  const { default: setter } = await import('pdfmake');
  setter.setUrlAccessPolicy(() => false);
  setter.setLocalAccessPolicy((path: string) => Object.values<string>(FACES).includes(path));
  setter.setFonts({ Helvetica: FACES });
  return Buffer.from(await setter.createPdf(definitionOf(paper)).getBuffer());
}

function definitionOf(paper: Paper): TDocumentDefinitions {
  return {
    info: { title: printable(paper.title), creator: 'Tarnkeep', producer: 'Tarnkeep' },
    pageSize: paper.sheet,
    pageMargins: [MARGIN_PT, MARGIN_PT, MARGIN_PT, MARGIN_PT + 12],
    defaultStyle: { font: 'Helvetica', fontSize: 10, lineHeight: 1.25, color: INK },
    styles: {
      title: { fontSize: 20, bold: true, lineHeight: 1.15 },
      section: { fontSize: 13, bold: true, color: WATER, margin: [0, 16, 0, 4] },
      term: { bold: true },
      quiet: { color: QUIET },
      small: { fontSize: 8.5, color: QUIET },
    },
    content: paper.content,
    footer: (page: number, pages: number) => ({
      columns: [
        { text: printable(paper.foot), style: 'small' },
        { text: `page ${page} of ${pages}`, style: 'small', alignment: 'right' },
      ],
      margin: [MARGIN_PT, 16, MARGIN_PT, 0],
    }),
  };
}

/** What a core font cannot print but has a plain stand-in. */
const STAND_INS: Readonly<Record<string, string>> = {
  '₀': '0',
  '₁': '1',
  '₂': '2',
  '₃': '3',
  '₄': '4',
  '₅': '5',
  '₆': '6',
  '₇': '7',
  '₈': '8',
  '₉': '9',
  '≥': '>=',
  '≤': '<=',
  '≈': '~',
  '→': 'to',
  '−': '-',
  '‑': '-',
  '▲': '!',
  '✓': '+',
  Δ: 'change of ',
  '\u00a0': ' ',
  '\u202f': ' ',
  '\u2009': ' ',
  '\t': ' ',
};
/** Signs of the Windows Latin code page beyond Latin-1: what the core fonts have (ISO 32000-1, annex D). */
const FURTHER_SIGNS = '€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ';
const NOT_PRINTED = '·';

/** A text as far as the core fonts go; every further sign becomes a dot. */
export function printable(text: string): string {
  return [...text.normalize('NFC')].map((sign) => STAND_INS[sign] ?? (isPrinted(sign) ? sign : NOT_PRINTED)).join('');
}

/** Whether a text has signs that paper cannot show here. */
export function losesSigns(text: string): boolean {
  return [...text.normalize('NFC')].some((sign) => STAND_INS[sign] === undefined && !isPrinted(sign));
}

function isPrinted(sign: string): boolean {
  const code = sign.codePointAt(0) as number;
  return (
    sign === '\n' || (code >= 0x20 && code <= 0x7e) || (code >= 0xa1 && code <= 0xff) || FURTHER_SIGNS.includes(sign)
  );
}

export function sectionTitle(text: string, startsPage = false): Content {
  const style = { text: printable(text), style: 'section', headlineLevel: 1 };
  return startsPage ? { ...style, pageBreak: 'before' } : style;
}

/** Rows of a name and what is to be said of it, with hairlines between. */
export function factRows(
  rows: readonly { readonly name: string; readonly words: string; readonly more?: string }[],
): Content {
  return {
    layout: {
      hLineWidth: (line: number, node: { table: { body: unknown[] } }) =>
        line === 0 || line === node.table.body.length ? 0 : 0.5,
      vLineWidth: () => 0,
      hLineColor: () => '#c9c3b8',
      paddingLeft: () => 0,
      paddingTop: () => 4,
      paddingBottom: () => 3,
    },
    table: {
      widths: ['40%', '*'],
      dontBreakRows: true,
      body: rows.map(({ name, words, more = '' }) => [
        { text: printable(name), style: 'term' },
        { stack: [printable(words), ...(more === '' ? [] : [{ text: printable(more), style: 'quiet' }])] },
      ]),
    },
  };
}

/** A caution in its frame: the first line says what to do. */
export function cautionFrame(first: string, lines: readonly string[]): Content {
  return {
    margin: [0, 6, 0, 2],
    unbreakable: true,
    layout: {
      hLineWidth: () => 1.5,
      vLineWidth: () => 1.5,
      paddingLeft: () => 8,
      paddingRight: () => 8,
      paddingTop: () => 6,
      paddingBottom: () => 4,
    },
    table: {
      widths: ['*'],
      body: [[{ stack: [{ text: printable(first), bold: true }, ...lines.map(printable)] }]],
    },
  };
}
