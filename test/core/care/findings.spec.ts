import { describe, expect, it } from '@jest/globals';
import { findingWords } from '../../../src/core/care/explain.js';
import { pondFindings } from '../../../src/core/care/findings.js';
import { planningContext } from '../../../src/core/care/planning-context.js';
import type { PondFacts } from '../../../src/core/care/pond-facts.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { aMachine, aPlanInput, aPond } from '../../support/a-pond.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const forecast = sinusoidForecast({
  meanC: 12,
  amplitudeC: 12,
  warmestDayOfYear: 205,
  firstDay: civilDay('2026-07-01'),
});

function findings(changes: Partial<PondFacts>) {
  return pondFindings(planningContext(aPlanInput({ forecast, rules: [], pond: aPond(changes) })));
}

function codes(changes: Partial<PondFacts>): string[] {
  return findings(changes).map((finding) => finding.code);
}

const pump = (id: string, flowLPerH: number) => ({ ...aMachine('pump', { flowLPerH }), id });

// Trade facts (common practice).
describe('a pond', () => {
  it('of 4,000 L with one circuit of 3,600 L/h is told so, and that a second circuit closes the gap', () => {
    const changes = {
      volumeL: 4000,
      stock: [{ species: 'koi', count: 1, lengthCm: 30 }],
      equipment: [pump('a', 3600)],
    } as const;
    const [finding] = findings(changes);
    expect(finding?.code).toBe('turnover-not-met');
    expect(finding && findingWords(finding, 'metric')).toMatch(
      /A second circuit of at least 400 L\/h closes the gap\./,
    );
  });

  it('of 4,000 L with a second circuit of 2,000 L/h is told nothing of it', () => {
    expect(codes({ volumeL: 4000, stock: [], equipment: [pump('a', 3600), pump('b', 2000)] })).toEqual([]);
  });

  it('without a refuge of nearly three feet gets a warning in a frost climate', () => {
    const [finding] = findings({ maxDepthM: 0.7, volumeL: 12_000 });
    expect(finding).toMatchObject({ code: 'refuge-too-shallow' });
    expect(codes({ maxDepthM: 0.7, winterClass: 'W0' })).not.toContain('refuge-too-shallow');
    expect(codes({ maxDepthM: 0.9, winterClass: 'W1' })).not.toContain('refuge-too-shallow');
  });

  it('with more fish than water for them is told so', () => {
    expect(codes({ stock: [{ species: 'koi', count: 20, lengthCm: 50 }] })).toContain('overstocked');
    expect(codes({ stock: [{ species: 'koi', count: 6, lengthCm: 45 }] })).not.toContain('overstocked');
  });

  it('whose media cannot take what the fish give off at 25 °C is told so', () => {
    const small = [aMachine('biological-filter', { mediaVolumeL: 5, mediaAreaM2PerM3: 300 })];
    expect(codes({ equipment: small })).toContain('filter-too-small');
    expect(codes({ equipment: [aMachine('biological-filter', {})] })).not.toContain('filter-too-small');
  });

  it('whose volume is a guess is told to measure it', () => {
    // Ruling 26: above 15 %.
    expect(codes({ volumeSigmaPct: 16 })).toContain('volume-uncertain');
    expect(codes({ volumeSigmaPct: 15 })).not.toContain('volume-uncertain');
  });
});
