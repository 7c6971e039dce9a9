import { describe, expect, it } from '@jest/globals';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { lifeBar } from '../../../src/web/charts/life-bar.js';
import { dateRange, longWeekdayDate, weekdayDate } from '../../../src/web/charts/show-date.js';
import { markName, taskMark } from '../../../src/web/charts/task-mark.js';
import { verdictSign } from '../../../src/web/charts/verdict-sign.js';
import { windowBar } from '../../../src/web/charts/window-bar.js';

const DUE = civilDay('2026-10-13');

describe('windowBar', () => {
  const bar = (own: { earliest?: number; latest?: number; today?: number } = {}) =>
    String(
      windowBar({
        earliest: addDays(DUE, own.earliest ?? -4),
        due: DUE,
        latest: addDays(DUE, own.latest ?? 6),
        today: addDays(DUE, own.today ?? -8),
        needsAction: false,
      }),
    );

  it('gives each day three pixels, centred on the due day', () => {
    expect(bar()).toContain('d="M72 10H102"');
    expect(bar()).toContain('d="M84 4l6 6l-6 6l-6-6z"');
  });

  it('marks today while it is within 28 days', () => {
    expect(bar({ today: -28 })).toContain('class="nowl" d="M0 0v20"');
    expect(bar({ today: -29 })).not.toContain('nowl');
  });

  it('ends in an arrow head where the window goes on beyond the bar', () => {
    expect(bar({ latest: 90 })).toContain('M162 5L167 10L162 15');
    expect(bar({ earliest: -90 })).toContain('M6 5L1 10L6 15');
  });

  it('is hidden from assistive technology: the dates stand beside it', () => {
    expect(bar()).toContain('aria-hidden="true"');
  });
});

describe('taskMark', () => {
  it('has an accessible name with number, person and state', () => {
    expect(markName({ number: 4, doneBy: 'homeowner', needsAction: true })).toBe('4, homeowner, needs action');
    expect(String(taskMark({ number: 2, doneBy: 'technician', needsAction: false }))).toContain(
      'aria-label="2, technician"',
    );
  });
});

describe('lifeBar', () => {
  it('runs to its share and stops at the end', () => {
    expect(String(lifeBar(0.5))).toContain('M1 6H80');
    expect(String(lifeBar(1.4))).toContain('M1 6H159');
  });

  it('asks for action from nine tenths on', () => {
    expect(String(lifeBar(0.89))).toContain('class="span"');
    expect(String(lifeBar(0.9))).toContain('class="span act"');
  });
});

describe('verdictSign', () => {
  it('is a sign and words, never one without the other', () => {
    expect(String(verdictSign('in-order', 'in order, below 0.02'))).toMatch(/<svg.*in order, below 0\.02/s);
    expect(String(verdictSign('act', 'needs action: above 0.3'))).toContain('class="verdict watch act"');
  });
});

describe('dates in words', () => {
  it('names the weekday of the day', () => {
    expect(weekdayDate(civilDay('2026-10-09'))).toBe('Fri 9 Oct');
    expect(longWeekdayDate(civilDay('1969-12-31'))).toBe('Wednesday 31 December');
  });

  it('writes the month of a range once, and the year only where it is another', () => {
    const today = civilDay('2026-10-05');
    expect(dateRange(civilDay('2026-10-06'), civilDay('2026-10-16'), today)).toBe('6–16 Oct');
    expect(dateRange(civilDay('2026-10-21'), civilDay('2026-11-01'), today)).toBe('21 Oct – 1 Nov');
    expect(dateRange(civilDay('2025-10-21'), civilDay('2025-11-01'), today)).toBe('21 Oct – 1 Nov 2025');
    expect(dateRange(civilDay('2025-12-21'), civilDay('2026-12-20'), today)).toBe('21 Dec 2025 – 20 Dec');
  });
});
