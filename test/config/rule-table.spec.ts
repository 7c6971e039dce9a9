import { describe, expect, it } from '@jest/globals';
import { shippedRules } from '../support/shipped-rules.js';

/** Rows CR-01 to CR-46 of the handbook's rule table, each with the rules that carry it out. */
const RULES_OF_ROW: Readonly<Record<string, readonly string[]>> = {
  'CR-01': ['volume-verify'],
  'CR-02': [
    'dechlorinate-first-fill',
    'part-water-change',
    'evaporation-top-up',
    'chlorine-in-pond',
    'chlorine-after-change',
  ],
  'CR-03': ['part-water-change', 'part-water-change-light-stock', 'ammonia-high', 'nitrite-high', 'nitrate-high'],
  'CR-04': ['filter-media-rinse'],
  'CR-05': ['biological-media-rinse', 'test-after-media-rinse'],
  'CR-06': ['skimmer-basket'],
  'CR-07': ['pump-clean', 'pump-intake'],
  'CR-08': ['pump-renew'],
  'CR-09': ['uv-lamp-replacement'],
  'CR-10': ['uv-sleeve-clean', 'uv-sleeve-renew'],
  'CR-11': ['uv-season-off'],
  'CR-12': ['uv-season-on'],
  'CR-13': ['aerator-diaphragm'],
  'CR-14': ['aerator-inlet-filter', 'air-stones'],
  'CR-15': ['residual-current-test'],
  'CR-16': ['lights-check'],
  'CR-17': ['edge-and-liner-check', 'waterfall-lines'],
  'CR-18': ['leak-test'],
  'CR-19': ['evaporation-top-up'],
  'CR-20': ['sludge-measure', 'sludge-removal'],
  'CR-21': [
    'water-test',
    'water-test-light-stock',
    'nitrate-test',
    'hardness-test',
    'unionised-ammonia-high',
    'ph-out-of-range',
  ],
  'CR-22': ['alkalinity-low'],
  'CR-23': ['run-in-first-week', 'run-in-feed-filter', 'run-in-water-tests'],
  'CR-24': ['first-livestock', 'next-livestock'],
  'CR-25': ['fish-quarantine-begin', 'fish-quarantine-end'],
  'CR-26': ['feed-by-water-temperature', 'feed-light-in-spring', 'feed-regular', 'feed-light-in-autumn', 'feed-stop'],
  'CR-27': ['leaf-net-on'],
  'CR-28': ['leaf-net-off'],
  'CR-29': [
    'plants-cut-back',
    'plants-lower-lilies',
    'plants-stop-fertiliser',
    'tropical-lilies-in',
    'tropical-tubers-look',
  ],
  'CR-30': ['plants-divide', 'plants-fertilise', 'plants-spring-cut', 'plants-thin', 'tropical-lilies-out'],
  'CR-31': ['winter-pump-shutdown'],
  'CR-32': ['winter-pump-raise', 'winter-intake-lower'],
  'CR-33': ['ice-opening', 'de-icer-check', 'ice-tonight'],
  'CR-34': ['snow-clear'],
  'CR-35': ['spring-start-up', 'spring-tests'],
  'CR-36': ['filter-restart'],
  'CR-37': ['spring-watch'],
  'CR-38': ['dawn-oxygen-check', 'oxygen-low'],
  'CR-39': ['summer-heat-ready', 'heat-feed-early', 'heat-halve-feed', 'heat-stop-feed', 'heat-ahead'],
  'CR-40': ['green-water'],
  'CR-41': ['string-algae'],
  'CR-42': ['algaecide-request', 'algaecide-watch'],
  'CR-43': ['barley-straw'],
  'CR-44': ['power-failure'],
  'CR-45': ['test-kit-dates'],
  'CR-46': ['barrier-check', 'edge-and-liner-check'],
};

/** What a row of the table asks for and no rule does, with the reason. */
const LEFT_OUT: Readonly<Record<string, string>> = {
  'CR-04 clogging by head loss': 'no pressure or level difference is recorded; the flow of the pump stands for it',
  'CR-06 daily in leaf fall': 'a standing line is weekly; its first step says daily while leaves fall',
  'CR-15 after a thunderstorm': 'nobody records thunderstorms; the steps say it',
  'CR-31 seven-day forecast of frost': 'the water crosses 5 °C first in the traces; the lines are drained by then',
  'CR-33 sealed days': 'days the opening was sealed are looked at each day by the steps, not recorded',
  'CR-38 score of oxygen risks': 'overcast and thunderstorms are not recorded; warm water and readings decide',
  'CR-42 dose': 'ruling 25: no dose of a medicine or algaecide is computed',
};

/** Rules that follow other lines of the handbooks than the table. */
const BESIDE_THE_TABLE: Readonly<Record<string, string>> = {
  'auto-fill-check': 'section 5, automatic top-up valve',
  'cables-check': 'section 5, cords and plugs',
  'full-clean-out': 'section 8.3',
  'heater-check': 'heated ponds, common practice',
  'turtle-basking-look': 'water handbook section 10',
  'turtle-basking-place': 'water handbook section 10',
  'turtle-hygiene': 'water handbook section 10',
  'turtle-wintering': 'water handbook section 10',
  'warranty-end': 'equipment register',
};

/** What the calendar must cover, and a rule for each. */
const TOPICS: Readonly<Record<string, readonly string[]>> = {
  commissioning: ['dechlorinate-first-fill', 'run-in-first-week'],
  cycling: ['run-in-feed-filter', 'run-in-water-tests'],
  'stocking ramp': ['first-livestock', 'next-livestock'],
  quarantine: ['fish-quarantine-begin', 'fish-quarantine-end'],
  'feeding bands': ['feed-light-in-spring', 'feed-regular', 'feed-light-in-autumn'],
  'heat and cold stops': ['feed-stop', 'heat-stop-feed'],
  'water changes and top-up': ['part-water-change', 'evaporation-top-up'],
  tests: ['water-test', 'nitrate-test', 'ph-out-of-range', 'dawn-oxygen-check', 'chlorine-after-change'],
  media: ['filter-media-rinse', 'biological-media-rinse'],
  pump: ['pump-clean', 'pump-intake', 'pump-renew'],
  'UV lamp': ['uv-lamp-replacement', 'uv-sleeve-clean', 'uv-season-on', 'uv-season-off'],
  aerator: ['aerator-diaphragm', 'aerator-inlet-filter', 'air-stones'],
  'skimmer and net': ['skimmer-basket', 'leaf-net-on', 'leaf-net-off'],
  'de-icer': ['de-icer-check', 'ice-opening'],
  'waterfalls and lines': ['waterfall-lines'],
  'winter shutdown and its mild variants': ['winter-pump-shutdown', 'winter-pump-raise', 'winter-intake-lower'],
  'ice watch': ['ice-opening', 'snow-clear'],
  'spring start-up': ['spring-start-up', 'filter-restart', 'spring-tests'],
  'spring disease-danger weeks': ['spring-watch'],
  'summer heat and oxygen': ['summer-heat-ready', 'oxygen-low', 'power-failure'],
  algae: ['green-water', 'string-algae', 'algaecide-request', 'barley-straw'],
  plants: ['plants-divide', 'plants-fertilise', 'plants-thin', 'tropical-lilies-in', 'tropical-tubers-look'],
  'lights and mains': ['lights-check', 'residual-current-test', 'cables-check'],
  barrier: ['barrier-check'],
  'liner, edges, leaks': ['edge-and-liner-check', 'leak-test'],
  sludge: ['sludge-measure', 'sludge-removal'],
  warranty: ['warranty-end'],
  turtles: ['turtle-basking-place', 'turtle-basking-look', 'turtle-wintering', 'turtle-hygiene'],
};

describe("the handbook's rule table", () => {
  const ids = new Set(shippedRules().map(({ id }) => id));

  it('has 46 rows, each of which is carried out by rules that are there', () => {
    const rows = Array.from({ length: 46 }, (_, index) => `CR-${String(index + 1).padStart(2, '0')}`);
    expect(Object.keys(RULES_OF_ROW)).toEqual(rows);
    const missing = Object.entries(RULES_OF_ROW).flatMap(([row, rules]) =>
      rules.length === 0 ? [row] : rules.filter((id) => !ids.has(id)).map((id) => `${row} ${id}`),
    );
    expect(missing).toEqual([]);
  });

  it('gives each part that no rule carries out a reason', () => {
    for (const [part, reason] of Object.entries(LEFT_OUT)) {
      expect(Object.keys(RULES_OF_ROW)).toContain(part.slice(0, 5));
      expect(reason.length).toBeGreaterThan(20);
    }
  });

  it('leaves no rule without a row or a line of the handbooks', () => {
    const named = new Set([...Object.values(RULES_OF_ROW).flat(), ...Object.keys(BESIDE_THE_TABLE)]);
    expect([...ids].filter((id) => !named.has(id))).toEqual([]);
    expect(Object.keys(BESIDE_THE_TABLE).filter((id) => !ids.has(id))).toEqual([]);
  });

  it('is wide enough: every topic of a year has its rules', () => {
    const missing = Object.values(TOPICS).flatMap((rules) => rules.filter((id) => !ids.has(id)));
    expect(missing).toEqual([]);
  });
});
