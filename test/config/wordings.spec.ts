import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { loadCautions } from '../../src/config/cautions.js';
import { SettingsError } from '../../src/config/settings-faults.js';
import { loadWordings } from '../../src/config/wordings.js';
import { taskWords } from '../../src/core/care/explain.js';
import { planCareCalendar } from '../../src/core/care/plan-care-calendar.js';
import { cautionIn } from '../../src/core/care/wording/in-language.js';
import { civilDay } from '../../src/core/units/civil-day.js';
import { aPlanInput } from '../support/a-pond.js';
import { CONFIG_DIRECTORY, shippedRule, shippedRules } from '../support/shipped-rules.js';
import { sinusoidForecast } from '../support/sinusoid-forecast.js';

const CAUTIONS = loadCautions(CONFIG_DIRECTORY);
const GERMAN = `
language: de
calendar:
  date: '{day}. {month} {year}'
  months: [Jan., Feb., März, April, Mai, Juni, Juli, Aug., Sept., Okt., Nov., Dez.]
  why:
    crossing:
      falling: 'Das Wasser fällt im Mittel von sieben Tagen etwa am {crossing-p50} unter {threshold}; in 8 von 10 Jahren zwischen {crossing-p10} und {crossing-p90}.'
rules:
  feed-stop:
    title: Nicht mehr füttern
    reason: Unter 10 °C verdauen Fische nichts.
    steps:
      - Kein Futter mehr, was immer die Fische wollen.
      - Nicht an einem einzelnen warmen Tag wieder anfangen.
      - Den Rest kühl, trocken und verschlossen aufbewahren, oder im Frühjahr wegwerfen.
cautions:
  ice:
    firstLine: Nie aufs Eis, wie dick es auch ist.
    lines:
      - Vom Ufer arbeiten. Belüfter und Eisfreihalter machen dünne Stellen, die niemand sieht.
      - Nie aufs Eis schlagen. Mit einem Topf heißen Wassers oder einem Eisfreihalter auftauen.
    defersTo: Der Rat der örtlichen Rettung geht vor.
    reviewed: true
  lifting:
    firstLine: Nasse Töpfe, Pumpen und Medien zu zweit heben, oder in kleineren Lasten.
    lines:
      - Ein Eimer von 20 L wiegt etwa 20 kg.
    defersTo: Die Regeln des Arbeitgebers gehen vor.
    reviewed: false
`;

describe('a second language', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'wordings-'));
    mkdirSync(path.join(folder, 'wording'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  const load = (text: string, name = 'de.yaml') => {
    rmSync(path.join(folder, 'wording'), { recursive: true });
    mkdirSync(path.join(folder, 'wording'));
    writeFileSync(path.join(folder, 'wording', name), text);
    return loadWordings(folder, { rules: shippedRules(), cautions: CAUTIONS });
  };
  const faultsOf = (text: string, name?: string): readonly string[] => {
    try {
      load(text, name);
    } catch (error) {
      if (error instanceof SettingsError) return error.faults;
      throw error;
    }
    return [];
  };

  it('is one file; what it leaves out is said in English', () => {
    const wording = load(GERMAN).get('de');
    const forecast = sinusoidForecast({
      meanC: 12,
      amplitudeC: 12,
      warmestDayOfYear: 205,
      firstDay: civilDay('2026-03-01'),
      spreadDays: 10,
    });
    const rule = shippedRule('feed-stop');
    const [task] = planCareCalendar(aPlanInput({ forecast, rules: [rule], careSince: forecast.firstDay })).tasks;
    if (!task || !wording) throw new Error('no task or no German');
    const words = taskWords({ task, rule, audience: 'homeowner', units: 'metric', wording });
    expect(words.title).toBe('Nicht mehr füttern');
    expect(words.why).toMatch(
      /^Unter 10 °C verdauen Fische nichts\. Das Wasser fällt .* am 2\. Nov\. 2026 unter 10 °C/,
    );
    expect(words.wouldChangeIf).toBe(rule.wouldChangeIf);
  });

  it('marks each caution that nobody who grew up with it has read', () => {
    const wording = load(GERMAN).get('de');
    if (!wording) throw new Error('no German');
    const said = (id: string) => {
      const caution = CAUTIONS.find((one) => one.id === id);
      if (!caution) throw new Error(`no caution ${id}`);
      return cautionIn(caution, wording);
    };
    expect(said('ice')).toMatchObject({ firstLine: 'Nie aufs Eis, wie dick es auch ist.', isReviewed: true });
    expect(said('lifting').isReviewed).toBe(false);
    expect(said('backflow')).toMatchObject({
      firstLine: 'Never let the filling hose hang under water.',
      isReviewed: false,
    });
    expect(wording.unreviewed).toHaveLength(CAUTIONS.length - 1);
  });

  it('is not asked for: without a folder there is English, and nothing in it is unreviewed', () => {
    const wordings = loadWordings(path.join(folder, 'none'), { rules: shippedRules(), cautions: CAUTIONS });
    expect([...wordings.keys()]).toEqual(['en']);
    expect(wordings.get('en')?.unreviewed).toEqual([]);
  });

  it('is refused when it loses a step, a figure or a name', () => {
    expect(faultsOf(GERMAN.replace('      - Nicht an einem einzelnen warmen Tag wieder anfangen.\n', ''))).toEqual([
      'config/wording/de.yaml, line 14: rules.feed-stop.steps has 2 lines; the rule has 3.',
    ]);
    expect(faultsOf(GERMAN.replace(' unter {threshold}', ''))).toEqual([
      expect.stringMatching(/line 8: calendar\.why\.crossing\.falling has lost \{threshold\}/),
    ]);
    expect(faultsOf(GERMAN.replace('  feed-stop:', '  feed-no-more:'))).toEqual([
      expect.stringMatching(/rules\.feed-no-more is no rule/),
    ]);
    expect(faultsOf(GERMAN.replace('  why:', '  wherefore:'))).toEqual([
      expect.stringMatching(/calendar\.wherefore is nothing the calendar says/),
    ]);
    expect(faultsOf(GERMAN, 'fr.yaml')).toEqual([expect.stringMatching(/language is "de", but the file is fr\.yaml/)]);
  });
});
