import { describe, expect, it } from '@jest/globals';
import type { OutlookSummary } from '../../../src/care-calendar/index.js';
import { bandOf } from '../../../src/web/office/ponds/page/band.view-model.js';

const outlook: OutlookSummary = {
  firstDay: '2026-06-01',
  p10C: [],
  p50C: [],
  p90C: [],
  median7dMeanC: [],
  iceShare: [],
  koeppen: 'Dfa',
  hardinessZone: '5b',
  winterClass: 'W3',
  stations: [],
  warnings: [],
  band: [{ days: 14, halfWidthC: 2.5, weatherShare: 0.6, modelShare: 0.37, thermometerShare: 0.03 }],
};

describe('where the band comes from', () => {
  it('is a row a span, in the units of the reader', () => {
    expect(bandOf(outlook, 0, 'metric')!.rows).toEqual([
      { span: 'Next two weeks', width: '± 2.5 °C', weather: '60 %', model: '37 %', thermometer: '3 %' },
    ]);
    expect(bandOf(outlook, 0, 'us')!.rows[0]!.width).toBe('± 4.5 °F');
  });

  it('says what readings have taught, or what they could', () => {
    const learned = { windAt2mMPerS: 2.4, shadeShare: 0.45 };
    expect(bandOf({ ...outlook, learned }, 8, 'metric')!.note).toContain('2.4 m/s of wind over the water and 45 %');
    expect(bandOf({ ...outlook, learned }, 8, 'us')!.note).toContain('5.4 mph');
    expect(bandOf(outlook, 0, 'us')!.note).toContain('No reading yet');
    expect(bandOf(outlook, 3, 'us')!.note).toContain('a season apart');
  });

  it('is left out of outlooks from before it was known', () => {
    const { band: _, ...old } = outlook;
    expect(bandOf(old, 3, 'us')).toBeNull();
  });
});
