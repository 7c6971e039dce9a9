import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, describe, expect, it } from '@jest/globals';
import { loadCareRules } from '../../src/config/care-rules.js';
import { SettingsError } from '../../src/config/settings-faults.js';
import { planCareCalendar } from '../../src/core/care/plan-care-calendar.js';
import { civilDay, isoDateOf } from '../../src/core/units/civil-day.js';
import { aPlanInput } from '../support/a-pond.js';
import { CONFIG_DIRECTORY, shippedRules } from '../support/shipped-rules.js';
import { sinusoidForecast } from '../support/sinusoid-forecast.js';

let folders: string[] = [];

afterEach(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  folders = [];
});

/** A copy of the shipped configuration with some files changed. */
function configWith(changes: Readonly<Record<string, (text: string) => string>>): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'care-rules-'));
  folders.push(folder);
  cpSync(path.join(CONFIG_DIRECTORY, 'care-rules'), path.join(folder, 'care-rules'), { recursive: true });
  cpSync(path.join(CONFIG_DIRECTORY, 'cautions.yaml'), path.join(folder, 'cautions.yaml'));
  for (const [name, change] of Object.entries(changes)) {
    const file = path.join(folder, 'care-rules', name);
    let text = '';
    try {
      text = readFileSync(file, 'utf8');
    } catch {
      // A new file.
    }
    writeFileSync(file, change(text));
  }
  return folder;
}

function faultsOf(changes: Parameters<typeof configWith>[0]): readonly string[] {
  try {
    loadCareRules(configWith(changes));
  } catch (error) {
    if (error instanceof SettingsError) return error.faults;
    throw error;
  }
  return [];
}

const replaced = (from: string, to: string) => (text: string) => {
  if (!text.includes(from)) throw new Error(`"${from}" is not in the file`);
  return text.replace(from, to);
};

describe('the shipped care rules', () => {
  it('load, at least forty of them, each file named after its rule', () => {
    expect(shippedRules().length).toBeGreaterThanOrEqual(40);
    const files = readdirSync(path.join(CONFIG_DIRECTORY, 'care-rules'));
    expect(
      shippedRules()
        .map((rule) => `${rule.id}.yaml`)
        .sort(),
    ).toEqual(files.sort());
  });

  it('give every number a source and one of four provenances', () => {
    for (const rule of shippedRules()) {
      for (const number of Object.values(rule.parameters)) {
        expect(number.source?.length ?? 0).toBeGreaterThan(3);
        expect(['published source', 'common practice', 'from memory', 'derived']).toContain(number.provenance);
      }
    }
  });

  it('put a caution on everything that is done with hands in the water, on the mains, on ice or with a product', () => {
    const without = shippedRules().filter((rule) => rule.cautions.length === 0);
    // What is left are messages about food and soil.
    expect(without.map((rule) => rule.id)).toEqual([
      'feed-light-in-autumn',
      'feed-light-in-spring',
      'feed-regular',
      'feed-stop',
    ]);
  });

  it('never let a homeowner open a UV housing, work on wiring or drain lines', () => {
    for (const rule of shippedRules()) {
      const isDangerous = rule.cautions.some((id) => ['uv-light', 'vault', 'hard-wiring'].includes(id));
      const isOnlySaidThere = ['residual-current-test', 'run-in-first-week'].includes(rule.id);
      if (isDangerous && !isOnlySaidThere) expect(rule.audience).toBe('technician');
    }
  });

  it('never tell anybody to cut a plug or hard-wire', () => {
    // Trade fact: that is a licensed electrician's work; the product says so and never instructs it.
    for (const rule of shippedRules()) {
      expect(rule.steps.join(' ')).not.toMatch(/hard-?wir|cut (off )?(the|its) plug|junction box|algaecide|medicat/i);
    }
  });
});

describe('a care rule file', () => {
  it('with an unknown key is refused with file, line and field', () => {
    expect(faultsOf({ 'pump-clean.yaml': replaced('audience:', 'audiance:') })).toEqual([
      expect.stringMatching(/^config\/care-rules\/pump-clean\.yaml, line 1: audience is missing/),
      'config/care-rules/pump-clean.yaml, line 17: audiance is not a field here. Did you mean audience? Remove it, or correct its name.',
    ]);
  });

  it('with a number outside its range is refused with the range', () => {
    expect(faultsOf({ 'pump-clean.yaml': replaced('value: 90', 'value: 900') })).toEqual([
      'config/care-rules/pump-clean.yaml, line 13: parameters.runDays.value is 900; allowed is 30 to 180 d.',
    ]);
  });

  it('that names a parameter it does not have is refused', () => {
    expect(faultsOf({ 'pump-clean.yaml': replaced('limit: runDays', 'limit: daysRun') })).toEqual([
      'config/care-rules/pump-clean.yaml, line 9: anyOf.0.limit names "daysRun", which is no parameter of the rule: runDays, tolerancePct, weakPct, withinDays.',
    ]);
  });

  it('that names a caution that does not exist is refused', () => {
    expect(faultsOf({ 'pump-clean.yaml': replaced('lifting, vault', 'lifting, volt') })).toEqual([
      expect.stringMatching(/line \d+: cautions\.3 is "volt", but config\/cautions\.yaml has no such caution\./),
    ]);
  });

  it('that names a rule that does not exist is refused', () => {
    expect(faultsOf({ 'pump-clean.yaml': replaced('alignWith: [spring-start-up]', 'alignWith: [spring]') })).toEqual([
      expect.stringMatching(/line \d+: alignWith\.0 is "spring", but no rule has that id\./),
    ]);
  });

  it('with the id of another rule is refused in both', () => {
    const faults = faultsOf({ 'pump-clean.yaml': replaced('id: pump-clean', 'id: water-test') });
    expect(faults).toContainEqual(
      expect.stringMatching(/pump-clean\.yaml, line 1: id is "water-test", as in config\/care-rules\/water-test\.yaml/),
    );
    expect(faults).toContainEqual(
      expect.stringMatching(/pump-clean\.yaml, line 1: id is "water-test", but the file is pump-clean\.yaml/),
    );
  });

  it('with a trigger its cycle cannot name is refused', () => {
    expect(faultsOf({ 'pump-clean.yaml': replaced('cycle: count', 'cycle: cooling') })).toEqual([
      expect.stringMatching(/anyOf\.0\.kind is accumulation; cycle cooling takes crossing or season\./),
      expect.stringMatching(/anyOf\.1\.kind is reading; cycle cooling takes crossing or season\./),
      expect.stringMatching(/perMachine is true: such a rule has the cycle count and appliesTo\.equipment\./),
    ]);
  });

  it('that crosses the wrong way for its season is refused', () => {
    expect(faultsOf({ 'feed-stop.yaml': replaced('direction: falling', 'direction: rising') })).toEqual([
      expect.stringMatching(/anyOf\.0\.direction is rising; cycle cooling takes falling\./),
    ]);
  });

  it('with a word that is not allowed is refused with what is', () => {
    const [fault] = faultsOf({ 'pump-clean.yaml': replaced('audience: technician', 'audience: owner') });
    expect(fault).toMatch(/line \d+: audience is "owner": .*homeowner.*technician.*either/);
  });

  it('without a needed field is refused by its name', () => {
    const [fault] = faultsOf({ 'pump-clean.yaml': replaced("title: Clean the pump's intake and impeller\n", '') });
    expect(fault).toMatch(/pump-clean\.yaml, line \d+: title is missing/);
  });

  it('that is not YAML is refused with its line', () => {
    const [fault] = faultsOf({ 'pump-clean.yaml': replaced('anyOf:', 'anyOf: [') });
    expect(fault).toMatch(/^config\/care-rules\/pump-clean\.yaml, line \d+, is not YAML: /);
  });

  it('complains of every file at once', () => {
    const faults = faultsOf({
      'pump-clean.yaml': replaced('value: 90', 'value: 900'),
      'feed-stop.yaml': replaced('value: 10', 'value: 7'),
    });
    // Ruling 4: a stop at 7 °C lies below the lock at 8 °C and is refused.
    expect(faults).toEqual([
      expect.stringMatching(/feed-stop\.yaml.*is 7; allowed is 8 to 13 °C/),
      expect.stringMatching(/pump-clean\.yaml.*is 900/),
    ]);
  });

  it('copied and changed by a stranger gives the new task', () => {
    const text = readFileSync(path.join(CONFIG_DIRECTORY, 'care-rules/test-kit-dates.yaml'), 'utf8');
    const own = text
      .replace('id: test-kit-dates', 'id: bottom-drain')
      .replace(/^title:.*$/m, 'title: Purge the bottom drain')
      .replace('value: 180, min: 90', 'value: 14, min: 7')
      .replace('audience: technician', 'audience: homeowner');
    const rules = loadCareRules(configWith({ 'bottom-drain.yaml': () => own }));
    const forecast = sinusoidForecast({
      meanC: 12,
      amplitudeC: 12,
      warmestDayOfYear: 205,
      firstDay: civilDay('2026-06-01'),
    });
    const plan = planCareCalendar(aPlanInput({ forecast, rules, careSince: civilDay('2026-06-01') }));
    const task = plan.tasks.find((one) => one.ruleId === 'bottom-drain');
    expect(task?.doneBy).toBe('homeowner');
    expect(task && isoDateOf(task.window.due)).toBe('2026-06-15');
  });
});
