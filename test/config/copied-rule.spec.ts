import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { loadCareRules } from '../../src/config/care-rules.js';
import { planCareCalendar } from '../../src/core/care/plan-care-calendar.js';
import { addDays, civilDay } from '../../src/core/units/civil-day.js';
import { aPlanInput } from '../support/a-pond.js';
import { CONFIG_DIRECTORY } from '../support/shipped-rules.js';
import { sinusoidForecast } from '../support/sinusoid-forecast.js';

describe('a stranger who wants another rule', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'copied-rule-'));
    cpSync(path.join(CONFIG_DIRECTORY, 'care-rules'), path.join(folder, 'care-rules'), { recursive: true });
    cpSync(path.join(CONFIG_DIRECTORY, 'cautions.yaml'), path.join(folder, 'cautions.yaml'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('copies a file, gives it another id and another interval, and finds the task in the calendar', () => {
    const copied = readFileSync(path.join(folder, 'care-rules', 'barrier-check.yaml'), 'utf8')
      .replace('id: barrier-check', 'id: bench-oil')
      .replace('title: Try gate and barrier', 'title: Oil the bench')
      .replace('everyDays: { value: 90, min: 30, max: 182', 'everyDays: { value: 40, min: 30, max: 182');
    writeFileSync(path.join(folder, 'care-rules', 'bench-oil.yaml'), copied);

    const rules = loadCareRules(folder);
    const today = civilDay('2026-03-01');
    const forecast = sinusoidForecast({ meanC: 12, amplitudeC: 12, warmestDayOfYear: 205, firstDay: today });
    const plan = planCareCalendar(aPlanInput({ forecast, rules, careSince: today }));
    const task = plan.tasks.find(({ ruleId }) => ruleId === 'bench-oil');
    expect(task).toMatchObject({ cycle: '1', window: { due: addDays(today, 40) } });
    expect(rules.find(({ id }) => id === 'bench-oil')?.title).toBe('Oil the bench');
    expect(plan.tasks.find(({ ruleId }) => ruleId === 'barrier-check')?.window.due).toBe(addDays(today, 90));
  });

  it('is told file, line and field when the copy kept its old id', () => {
    cpSync(path.join(folder, 'care-rules', 'barrier-check.yaml'), path.join(folder, 'care-rules', 'bench-oil.yaml'));
    expect(() => loadCareRules(folder)).toThrow(
      /config\/care-rules\/bench-oil\.yaml, line 1: id is "barrier-check", but the file is bench-oil\.yaml/,
    );
  });
});
