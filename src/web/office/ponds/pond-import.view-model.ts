import { CSV_COLUMNS, type CsvColumn, type ImportRunEntity } from '../../../ponds/index.js';

export interface ImportRunModel {
  readonly href: string;
  readonly title: string;
  readonly sentence: string;
  /** Null when it is over. */
  readonly progress: { readonly done: number; readonly total: number; readonly words: string } | null;
  readonly faults: readonly {
    readonly line: number;
    readonly field: string;
    readonly value: string;
    readonly allowed: string;
  }[];
  readonly furtherFaults: string;
}

export function importRunModel(run: ImportRunEntity): ImportRunModel {
  const { report } = run;
  return {
    href: `/ponds/import/${run.id}`,
    title: run.fileName,
    sentence: sentenceOf(run),
    progress: run.state === 'checking' || run.state === 'importing' ? progressOf(run) : null,
    faults: report.faults,
    furtherFaults:
      report.furtherFaults > 0
        ? `${report.furtherFaults.toLocaleString('en-US')} more are not listed. They are often the same slip in every line.`
        : '',
  };
}

function sentenceOf({ state, report }: ImportRunEntity): string {
  switch (state) {
    case 'imported':
      return `Imported: ${count(report.pondsAdded, 'pond')} added, ${count(report.pondsChanged, 'pond')} changed, ${count(report.contactsAdded, 'contact')} added. Their calendars are being made.`;
    case 'refused':
      return `Nothing was imported. ${count(report.faults.length + report.furtherFaults, 'cell')} cannot be used: put them right in your file and send it again.`;
    case 'failed':
      return 'The import broke off. Nothing was imported: send the file again.';
    case 'importing':
      return 'Every line was checked and can be used. The ponds are being saved, all of them or none.';
    default:
      return 'Every line is checked first. Nothing is saved until all of them can be used.';
  }
}

function progressOf({ state, doneRows, totalRows }: ImportRunEntity) {
  const verb = state === 'checking' ? 'checked' : 'saved';
  return {
    done: doneRows,
    total: totalRows,
    words:
      totalRows === 0
        ? 'Reading the file'
        : `${doneRows.toLocaleString('en-US')} of ${totalRows.toLocaleString('en-US')} ponds ${verb}`,
  };
}

function count(number: number, thing: string): string {
  if (number === 0) return `no ${thing}s`;
  return number === 1 ? `one ${thing}` : `${number.toLocaleString('en-US')} ${thing}s`;
}

const SECTION_WORDS: Readonly<Record<CsvColumn['section'], string>> = {
  pond: 'The pond, on its first line',
  contact: 'A person',
  equipment: 'A machine',
  stock: 'A kind of fish or turtle',
  agreement: 'Who does a task',
};

/** The columns that may be sent, section by section. */
export function importColumns(): readonly { readonly title: string; readonly columns: readonly CsvColumn[] }[] {
  const read = CSV_COLUMNS.filter((column) => !column.isExportOnly);
  return (Object.keys(SECTION_WORDS) as CsvColumn['section'][]).map((section) => ({
    title: SECTION_WORDS[section],
    columns: read.filter((column) => column.section === section),
  }));
}

/** A small file that can be imported as it stands. */
export function sampleCsv(): string {
  return `\ufeff${SAMPLE.map((row) => row.join(',')).join('\r\n')}\r\n`;
}

const SAMPLE: readonly (readonly string[])[] = [
  [
    'pond_ref',
    'pond_name',
    'street',
    'town',
    'region',
    'country',
    'latitude',
    'longitude',
    'elevation_ft',
    'outline',
    'length_ft',
    'width_ft',
    'depth_kind',
    'mean_depth_ft',
    'max_depth_ft',
    'direct_sun_hours',
    'trees_near',
    'tap_source',
    'tap_total_chlorine_mg_per_l',
    'contact_name',
    'contact_email',
    'contact_phone',
    'equipment_kind',
    'equipment_flow_us_gal_per_h',
    'equipment_power_w',
    'equipment_installed_on',
    'stock_species',
    'stock_count',
    'stock_length_in',
  ],
  [
    'A-101',
    'Sample pond',
    '12 Larkfield Lane',
    'Madison',
    'WI',
    'US',
    '43.07',
    '-89.40',
    '860',
    'ellipse',
    '15.5',
    '9',
    'average',
    '3.1',
    '4.2',
    '6',
    'yes',
    'chlorine',
    '1.8',
    'Ida Sample',
    'ida@example.com',
    '+1 608 555 0101',
    'pump',
    '3200',
    '180',
    '2024-05-02',
    'koi',
    '11',
    '14',
  ],
  [
    'A-101',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    'uv-lamp',
    '',
    '55',
    '2025-04-18',
    'goldfish',
    '6',
    '5',
  ],
];
