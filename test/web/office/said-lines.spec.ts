import { describe, expect, it } from '@jest/globals';
import { circuitFlow } from '../../../src/core/hydraulics/pump-line.js';
import type { WaterInput } from '../../../src/ponds/index.js';
import { saidOfStock, saidOfTap, saidOfTurnover, saidOfWater } from '../../../src/web/office/ponds/form/said-lines.js';

/** Pumps of which only the plate is known. */
const rated = (...flows: number[]) => flows.map((flowLPerH) => circuitFlow({ flowLPerH }, undefined)!);
const LINE = { liftM: 1.5, lengthM: 8, insideDiameterMm: 40.9, wall: 'smooth-plastic', elbows: 3 } as const;

describe('saidOfTurnover', () => {
  // Common practice: 4,000 L with 3,600 L/h is not met; with a further 2,000 L/h it is.
  it('tells that one circuit moves less than the volume in an hour, and that a second closes the gap', () => {
    const line = saidOfTurnover(rated(3600), 4000, 'metric');
    expect(line).toMatchObject({ tone: 'act' });
    expect(`${line?.lead} ${line?.text}`).toBe(
      'One circuit moves 3,600 L/h, less than the volume of 4,000 L in an hour. A second circuit of at least 400 L/h closes the gap. ' +
        'Rated figures; with lift and pipe the real flow is worked out. Measure it at the first visit.',
    );
  });

  it('is content with the second circuit', () => {
    expect(saidOfTurnover(rated(3600, 2000), 4000, 'metric')).toMatchObject({
      tone: 'fact',
      lead: '2 circuits move 5,600 L/h:',
    });
  });

  it('counts what a pump moves against its lift and pipe, not what its plate says', () => {
    const line = saidOfTurnover([circuitFlow({ flowLPerH: 10_000, maxHeadM: 5 }, LINE)!], 9000, 'metric');
    expect(line?.tone).toBe('act');
    expect(line?.lead).toMatch(/^One circuit moves 7,\d{3} L\/h, less than the volume/);
    expect(line?.text).toMatch(/The pump works against 2\.\d+ m\.$/);
  });

  it('warns of a pipe too narrow and of a pump that does not reach its outlet', () => {
    const narrow = circuitFlow({ flowLPerH: 10_000, maxHeadM: 8 }, { ...LINE, insideDiameterMm: 26.6 })!;
    expect(saidOfTurnover([narrow], 4000, 'us')?.text).toMatch(/runs at [\d.]+ ft\/s in its pipe, which is too fast/);
    const low = circuitFlow({ flowLPerH: 10_000, maxHeadM: 1.2 }, LINE)!;
    expect(saidOfTurnover([low], 4000, 'us')).toMatchObject({ tone: 'act', lead: 'No circuit moves any water.' });
  });

  it('says nothing where no pump has a flow', () => {
    expect(saidOfTurnover([], 4000, 'us')).toBeNull();
  });
});

describe('saidOfWater', () => {
  const shape = {
    kind: 'rectangle',
    lengthM: 4,
    widthM: 2,
    rockShare: 0,
    depth: { kind: 'average', meanDepthM: 1, maxDepthM: 1.3 },
  } as const;

  it('gives volume, method and error', () => {
    const line = saidOfWater({ method: 'shape', shape }, 'metric');
    expect(line.lead).toBe('8,000 L');
    expect(line.text).toMatch(/^from length, width and mean depth, give or take 20 %/);
  });

  it('says that meter and shape agree, and which one doses use', () => {
    const line = saidOfWater({ method: 'metered', volumeL: 7700, shape } as WaterInput, 'metric');
    expect(line.tone).toBe('fact');
    expect(line.text).toContain('The shape gives 8,000 L, 4 % more: they agree. Doses use the measured volume.');
  });

  it('asks for a second look where they lie far apart', () => {
    expect(saidOfWater({ method: 'metered', volumeL: 2310, shape } as WaterInput, 'metric').tone).toBe('act');
  });
});

describe('saidOfStock', () => {
  it('says how much water each kilogram has, and what it becomes when the koi have grown', () => {
    const line = saidOfStock(
      [{ species: 'koi', count: 10, lengthCm: 30 }],
      { volumeL: 15_000, mediaAreaM2: null },
      'metric',
    );
    expect(line?.lead).toMatch(/one kilogram to [\d,]+ L/);
    expect(line?.text).toMatch(/When the koi reach 50 cm it will be one kilogram to [\d,]+ L\./);
  });

  it('asks for a second look at an overstocked pond', () => {
    expect(
      saidOfStock([{ species: 'koi', count: 40, lengthCm: 50 }], { volumeL: 10_000, mediaAreaM2: null }, 'us')?.tone,
    ).toBe('act');
  });

  it('compares the food in warm water with what the filter takes', () => {
    const stock = [{ species: 'koi', count: 10, lengthCm: 50 }] as const;
    expect(saidOfStock(stock, { volumeL: 30_000, mediaAreaM2: 5 }, 'metric')).toMatchObject({ tone: 'act' });
    expect(saidOfStock(stock, { volumeL: 30_000, mediaAreaM2: 500 }, 'metric')).toMatchObject({ tone: 'fact' });
  });
});

describe('saidOfTap', () => {
  it('doubts more chlorine than a supplier may deliver', () => {
    expect(saidOfTap('chlorine', 8)).toMatchObject({
      tone: 'act',
      text: 'Measure again, or ask the supplier. Did you mean 0.8?',
    });
  });

  it('tells that chloramine does not gas off', () => {
    expect(saidOfTap('chloramine', 1.8)?.lead).toBe('Chloramine does not gas off.');
  });

  it('reckons with 4 mg/L where nobody measured', () => {
    expect(saidOfTap('chlorine', null)?.text).toContain('4 mg/L');
  });
});
