import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { ImportRunEntity, PondEntity, type PondRecord, pondInputOf } from '../../src/ponds/index.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { storeCompany } from '../support/company-rows.js';
import { aPond } from '../support/typed-pond.js';

let stack: CareStack;
beforeAll(async () => {
  stack = await careStack({ isPlanned: false });
});
afterAll(() => stack.close());

const HEAD = 'pond_ref,pond_name,latitude,longitude,elevation_m,volume_us_gal,surface_area_m2,max_depth_m';
const GOOD = 'K-1,Koi pond,43.07,-89.4,270,2310,10,1.2';

const company = async () => (await storeCompany(stack.database)).company.id;
const importText = (companyId: string, text: string) =>
  stack.imports.importCsv(companyId, { fileName: 'ponds.csv', text });
const pondsOf = (companyId: string) =>
  stack.database.company(companyId).find(PondEntity, { order: { ref: 'ASC', name: 'ASC' } });

async function exported(companyId: string): Promise<string> {
  let text = '';
  for await (const piece of stack.exports.exportCsv(companyId)) text += piece;
  return text;
}

async function contentOf(companyId: string): Promise<unknown[]> {
  const records: PondRecord[] = [];
  for (const { id } of await pondsOf(companyId)) records.push(await stack.ponds.get(companyId, id));
  const plain = records.map((record) => {
    const { equipment, contacts, ref: _, ...pond } = pondInputOf(record);
    const withoutId = (one: object) => ({ ...one, id: undefined });
    return { ...pond, equipment: equipment.map(withoutId), contacts: contacts!.map(withoutId) };
  });
  return plain.sort((a, b) => a.name.localeCompare(b.name));
}

describe('PondImportService', () => {
  it('imports ponds with people, machines, stock and agreement over several lines of one reference', async () => {
    const companyId = await company();
    const run = await importText(
      companyId,
      `\ufeffpond_ref,pond_name,latitude,longitude,elevation_ft,volume_us_gal,surface_area_ft2,max_depth_ft,contact_name,contact_email,equipment_kind,equipment_flow_us_gal_per_h,stock_species,stock_count,stock_length_in,agreement_rule,agreement_done_by
K-1,"Koi, pond",43.07,-89.4,886,2310,110,4,Ana Field,Ana@Example.com,pump,3000,koi,8,14,device-test,homeowner
K-1,,,,,,,,Bo Field,,uv-lamp,,,,,,
K-2,Second,25.76,-80.19,10,1000,60,3,,,,,,,,,
`,
    );
    expect(run).toMatchObject({
      state: 'imported',
      totalRows: 2,
      report: { pondsAdded: 2, pondsChanged: 0, contactsAdded: 2, faults: [] },
    });
    const [first, second] = await pondsOf(companyId);
    const record = await stack.ponds.get(companyId, first!.id);
    expect(record.pond).toMatchObject({
      name: 'Koi, pond',
      ref: 'K-1',
      volumeMethod: 'metered-fill',
      timeZone: 'America/Chicago',
    });
    expect(record.pond.volumeL).toBeCloseTo(8744.301, 3);
    expect(record.pond.elevationM).toBeCloseTo(270.05, 2);
    expect(record.contacts).toMatchObject([
      { name: 'Ana Field', email: 'ana@example.com' },
      { name: 'Bo Field', email: null },
    ]);
    expect(record.equipment.map(({ kind }) => kind)).toEqual(['pump', 'uv-lamp']);
    expect(record.equipment[0]!.rated.flowLPerH).toBeCloseTo(11356.2, 1);
    expect(record.stock).toMatchObject([{ species: 'koi', headCount: 8, lengthCm: expect.closeTo(35.56, 6) }]);
    expect(record.agreement).toMatchObject([{ ruleId: 'device-test', doneBy: 'homeowner' }]);
    expect(second!.timeZone).toBe('America/New_York');
  });

  it.each([
    ['an unknown column', `${HEAD},colour\n${GOOD},red`, { line: 1, field: 'colour', allowed: /no such column/ }],
    [
      'a gallon that is not named',
      `pond_ref,volume_gal\nK-1,2310`,
      { line: 1, field: 'volume_gal', allowed: /volume_us_gal or volume_imp_gal/ },
    ],
    [
      'a column without its unit',
      'pond_ref,max_depth\nK-1,4',
      { line: 1, field: 'max_depth', allowed: /max_depth_m or max_depth_ft/ },
    ],
    [
      'another spelling',
      'pond_ref,Pond Name\nK-1,x',
      { line: 1, field: 'Pond Name', allowed: /Did you mean pond_name/ },
    ],
    ['a column twice', `${HEAD},pond_name\n${GOOD},x`, { line: 1, field: 'pond_name', allowed: /stands twice/ }],
    ['no reference column', 'pond_name\nKoi', { line: 1, field: 'pond_ref', allowed: /is needed/ }],
    ['an empty file', '', { line: 1, field: 'file', allowed: /empty/ }],
    ['a quotation mark never closed', `${HEAD}\nK-1,"Koi pond,43`, { field: 'file', allowed: /never closed/ }],
    [
      'a line with a cell too many',
      `${HEAD}\n${GOOD},extra`,
      { line: 2, field: 'line', allowed: /8 columns, this line has 9/ },
    ],
    [
      'a line without reference',
      `${HEAD}\n,Koi,43,-89,270,2310,10,1.2`,
      { line: 2, field: 'pond_ref', allowed: /needs the reference/ },
    ],
    [
      'a decimal comma',
      `${HEAD}\nK-1,Koi,"43,07",-89.4,270,2310,10,1.2`,
      { line: 2, field: 'latitude', value: '43,07', allowed: /with a point/ },
    ],
    [
      'a thousands separator',
      `${HEAD}\nK-1,Koi,43.07,-89.4,270,"2,310",10,1.2`,
      { line: 2, field: 'volume_us_gal', allowed: /thousands/ },
    ],
    [
      'a latitude off the globe',
      `${HEAD}\n${GOOD}\nK-2,Koi,430.7,-89.4,270,2310,10,1.2`,
      { line: 3, field: 'latitude', value: '430.7', allowed: /-90 to 90/ },
    ],
    [
      'a volume that would overflow',
      `${HEAD}\nK-1,Koi,43.07,-89.4,270,23100,10,1.2`,
      { line: 2, field: 'volume_us_gal', value: '23100', allowed: /8.74 m deep/ },
    ],
    [
      'no water at all',
      'pond_ref,pond_name,latitude,longitude,elevation_m\nK-1,Koi,43,-89,270',
      { line: 2, field: 'volume_l', allowed: /How much water/ },
    ],
    [
      'a time zone that is none',
      `${HEAD},time_zone\n${GOOD},Central`,
      { line: 2, field: 'time_zone', value: 'Central', allowed: /IANA/ },
    ],
    [
      'an ambiguous date',
      `${HEAD},filled_on\n${GOOD},05/06/2025`,
      { line: 2, field: 'filled_on', allowed: /YYYY-MM-DD/ },
    ],
    [
      'a station that is not there',
      `${HEAD},station\n${GOOD},nowhere`,
      { line: 2, field: 'station', value: 'nowhere', allowed: /bundled/ },
    ],
    [
      'two units of one figure',
      `${HEAD},volume_l\n${GOOD},8744`,
      { line: 2, field: 'volume_l', allowed: /volume_us_gal is filled as well/ },
    ],
    [
      'lines that contradict each other',
      `${HEAD}\n${GOOD}\nK-1,Other name,,,,,,`,
      { line: 3, field: 'pond_name', value: 'Other name', allowed: /Line 2 says otherwise/ },
    ],
    [
      'a machine of no kind',
      `${HEAD},equipment_kind\n${GOOD},\nK-1,,,,,,,,rocket`,
      { line: 3, field: 'equipment_kind', value: 'rocket', allowed: /one of pump/ },
    ],
    [
      'an email address that is none',
      `${HEAD},contact_name,contact_email\n${GOOD},Ana,ana at example`,
      { line: 2, field: 'contact_email', allowed: /name@example.com/ },
    ],
    [
      'a yes that is a true',
      `${HEAD},waterfall\n${GOOD},TRUE`,
      { line: 2, field: 'waterfall', value: 'TRUE', allowed: /yes or no/ },
    ],
    [
      'levels that grow',
      'pond_ref,pond_name,latitude,longitude,elevation_m,outline,surface_area_m2,levels\nK-1,K,43,-89,270,measured-area,10,5x0.3; 8x0.6',
      { line: 2, field: 'levels', allowed: /not more than the area above it/ },
    ],
  ])('refuses %s, says where and what is allowed, and imports nothing', async (_, text, fault) => {
    const companyId = await company();
    const run = await importText(companyId, text);
    expect(run.state).toBe('refused');
    const { allowed, ...where } = fault;
    expect(run.report.faults).toContainEqual(
      expect.objectContaining({ ...where, allowed: expect.stringMatching(allowed) }),
    );
    expect(await pondsOf(companyId)).toEqual([]);
  });

  it('lists the first faults word by word and counts the rest', async () => {
    const rows = Array.from({ length: 250 }, (_, i) => `K-${i},Koi,430,-89.4,270,2310,10,1.2`);
    const { report } = await importText(await company(), [HEAD, ...rows].join('\n'));
    expect(report.faults).toHaveLength(200);
    expect(report.furtherFaults).toBe(50);
  });

  it('names a cell that cannot be used once, and not the outline that cannot be measured without it', async () => {
    const head =
      'pond_ref,pond_name,latitude,longitude,elevation_m,outline,length_m,width_m,depth_kind,mean_depth_m,max_depth_m';
    const rows = [
      'N-1,Narrow,43.07,-89.4,270,rectangle,5,-3,average,1,1.3',
      'N-2,Worded,43.07,-89.4,270,rectangle,five metres,3,average,1,1.3',
    ];
    const { report } = await importText(await company(), [head, ...rows].join('\n'));
    expect(report.faults.map(({ line, field }) => `${line} ${field}`)).toEqual(['2 width_m', '3 length_m']);
  });

  it('names the line on which a row begins, after cells with line breaks', async () => {
    const companyId = await company();
    const text = `${HEAD},access_notes\nK-1,Koi,43.07,-89.4,270,2310,10,1.2,"gate\non the\nleft"\nK-2,Koi,430,-89.4,270,2310,10,1.2,\n`;
    expect((await importText(companyId, text)).report.faults).toMatchObject([{ line: 5, field: 'latitude' }]);
  });

  it.each([0, 1])(
    'reads a character of two code units that lies across the pieces of a long file (%d)',
    async (shift) => {
      const companyId = await company();
      const name = `${'a'.repeat(shift)}${'🐟'.repeat(40)}`;
      const rows = Array.from({ length: 900 }, (_, i) => `K-${i},${name},43.07,-89.4,270,2310,10,1.2`);
      expect((await importText(companyId, [HEAD, ...rows].join('\n'))).state).toBe('imported');
      expect(new Set((await pondsOf(companyId)).map((pond) => pond.name))).toEqual(new Set([name]));
    },
  );

  it('updates the pond that has the reference; empty cells leave what stands; the same file again changes nothing', async () => {
    const companyId = await company();
    const head = `${HEAD},gate_code,contact_name,contact_phone`;
    await importText(companyId, `${head}\n${GOOD},1234,Ana Field,555 0101`);
    const second = await importText(
      companyId,
      `${head}\nK-1,Koi pond II,,,,,,,,ana field,555 0202\nK-2,New,43,-89,200,1000,8,1,,,`,
    );
    expect(second.report).toMatchObject({ pondsAdded: 1, pondsChanged: 1, contactsAdded: 0 });
    const [first] = await pondsOf(companyId);
    const record = await stack.ponds.get(companyId, first!.id);
    expect(record.pond).toMatchObject({ name: 'Koi pond II', gateCode: '1234', version: 2 });
    expect(record.contacts).toMatchObject([{ phone: '555 0202' }]);
    const third = await importText(companyId, `${head}\nK-1,Koi pond II,,,,,,,,ana field,555 0202`);
    expect(third.report).toMatchObject({ pondsAdded: 0, pondsChanged: 0 });
    expect((await stack.ponds.pond(companyId, first!.id)).version).toBe(2);
  });

  it('imports all or nothing when writing fails half way', async () => {
    const companyId = await company();
    const { writer } = stack.imports as unknown as { writer: { insert: (...given: unknown[]) => Promise<unknown> } };
    const insert = writer.insert.bind(writer);
    writer.insert = async (...given) => {
      await insert(...given);
      throw new Error('the disk is full');
    };
    try {
      await expect(importText(companyId, `${HEAD}\n${GOOD}`)).rejects.toThrow(/disk is full/);
    } finally {
      writer.insert = insert;
    }
    expect(await pondsOf(companyId)).toEqual([]);
    expect(await stack.imports.runs(companyId)).toMatchObject([{ state: 'failed', finishedAt: expect.any(String) }]);
  });

  it('tells its progress, to the caller and in its row', async () => {
    const companyId = await company();
    const rows = Array.from({ length: 600 }, (_, i) => `K-${i},Koi ${i},43.07,-89.4,270,2310,10,1.2`);
    const seen: string[] = [];
    stack.news.on('ponds-imported', async ({ pondIds, step }) => pondIds.forEach(step));
    const { runId, finished } = await stack.imports.start(
      companyId,
      { fileName: 'many.csv', text: [HEAD, ...rows].join('\n') },
      {
        onProgress: ({ phase, done, total }) => {
          if (seen.at(-1)?.split(' ')[0] !== phase || done === total) seen.push(`${phase} ${done}/${total}`);
        },
      },
    );
    const rowsSeen: number[] = [];
    let isOver = false;
    const watching = (async () => {
      while (!isOver) {
        rowsSeen.push((await stack.imports.run(companyId, runId)).doneRows);
        await new Promise((next) => setImmediate(next));
      }
    })();
    await finished;
    isOver = true;
    await watching;
    expect(seen).toEqual([
      'checking 250/600',
      'checking 600/600',
      'saving 250/600',
      'saving 600/600',
      'planning 1/600',
      'planning 600/600',
    ]);
    expect(rowsSeen.some((done) => done > 0 && done < 600)).toBe(true);
    const row = await stack.database.company(companyId).findOne(ImportRunEntity, { id: runId });
    expect(row).toMatchObject({ state: 'imported', totalRows: 600, doneRows: 600 });
  });
});

describe('PondExportService', () => {
  it('writes what the import reads to the same ponds, and guards what a spreadsheet would run', async () => {
    const from = await company();
    const awkward = [
      '=HYPERLINK("http://x.example.com")',
      '+1 608 555',
      "'quoted",
      '@SUM(A1)',
      '-2+3',
      '＝1',
      'a "b", c\nd',
    ];
    for (const [i, name] of awkward.entries()) {
      await stack.ponds.create(
        from,
        aPond({
          name,
          accessNotes: name,
          latitude: -33.9 + i,
          longitude: 18.4,
          contacts: [
            { name: `Contact ${i}`, phone: '+27 21 555' },
            { name: `=${i}`, email: `c${i}@example.com` },
          ],
        }),
      );
    }
    const shapes = [
      {
        kind: 'rectangle',
        lengthM: 4,
        widthM: 3,
        depth: {
          kind: 'levels',
          levels: [
            { areaM2: 12, heightM: 0.3 },
            { areaM2: 8.16, heightM: 0.6 },
          ],
        },
        rockShare: 0,
      },
      { kind: 'circle', diameterM: 3.3, depth: { kind: 'bowl', maxDepthM: 0.9 } },
      { kind: 'stadium', lengthM: 5.5, widthM: 2, depth: { kind: 'vertical', depthM: 1.1 } },
      {
        kind: 'measured-area',
        areaM2: 14.7,
        depth: { kind: 'average', meanDepthM: 0.7, maxDepthM: 1.3 },
        rockShare: 0.12,
      },
      {
        kind: 'kidney',
        lengthM: 6,
        widthM: 3.1,
        otherWidthM: 2.2,
        depth: {
          kind: 'contours',
          contours: [
            { depthM: 0.35, areaM2: 9.5 },
            { depthM: 0.9, areaM2: 0 },
          ],
        },
      },
    ] as const;
    for (const [i, shape] of shapes.entries()) {
      await stack.ponds.create(from, aPond({ name: `Shape ${i}`, ref: `S-${i}`, water: { method: 'shape', shape } }));
      await stack.ponds.create(
        from,
        aPond({ name: `Metered ${i}`, water: { method: 'salt-test', volumeL: 5000, shape } }),
      );
    }
    await stack.ponds.create(
      from,
      aPond({ name: 'Running in', commissionedOn: '2026-05-01', stockedOn: null, equipment: [], stock: [] }),
    );
    const salted = { method: 'salt-test', volumeL: 5000, sigmaPct: 6.2, surfaceAreaM2: 8, maxDepthM: 1 } as const;
    await stack.ponds.create(from, aPond({ name: 'Salted', water: salted }));
    const line = {
      liftM: 1.4,
      lengthM: 9,
      insideDiameterMm: 40.9,
      wall: 'ribbed-hose',
      elbows: 3,
      checkValves: 1,
    } as const;
    const pump = {
      kind: 'pump',
      rated: { flowLPerH: 9000, maxHeadM: 4.2, line: { ...line, filterHeadM: 0.5 } },
    } as const;
    await stack.ponds.create(from, aPond({ name: 'With a line', equipment: [pump] }));
    await stack.ponds.create(
      from,
      aPond({ name: 'Area only', water: { method: 'metered', volumeL: 5000, surfaceAreaM2: 8, maxDepthM: 1 } }),
    );

    const text = await exported(from);
    expect(text).toContain(`"'=HYPERLINK(""http://x.example.com"")"`);
    expect(text).toContain(`"'+1 608 555"`);
    expect(text).toContain('-33.9');
    expect(text).not.toContain("'-33.9");
    for (const line of text.split('\r\n').slice(1)) expect(line).not.toMatch(/(^|,)"?[=+@＝\t]/);

    const to = await company();
    expect(await importText(to, text)).toMatchObject({ state: 'imported', report: { pondsAdded: 21, faults: [] } });
    expect(await contentOf(to)).toEqual(await contentOf(from));

    const again = await importText(from, text);
    expect(again).toMatchObject({ state: 'imported', report: { pondsAdded: 0, pondsChanged: 0, contactsAdded: 0 } });
    expect(await exported(from)).toBe(text);
  });

  it('writes only ponds of the company that are in care', async () => {
    const mine = await company();
    await stack.ponds.create(mine, aPond({ name: 'Mine' }));
    const gone = await stack.ponds.create(mine, aPond({ name: 'Archived one' }));
    await stack.ponds.archive(mine, gone);
    await stack.ponds.create(await company(), aPond({ name: 'Theirs' }));
    const text = await exported(mine);
    expect(text).toContain('Mine');
    expect(text).not.toMatch(/Theirs|Archived one/);
  });
});
