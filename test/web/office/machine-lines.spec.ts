import { describe, expect, it } from '@jest/globals';
import type { CareTaskView } from '../../../src/care-calendar/index.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import type { EquipmentEntity } from '../../../src/ponds/index.js';
import { machineLines } from '../../../src/web/office/ponds/page/machinery.view-model.js';

const lamp = {
  id: 'lamp',
  kind: 'uv-lamp',
  name: 'Lamp',
  rated: { lampRatedHours: 9000 },
  installedOn: '2026-04-15',
  warrantyUntil: null,
  removedOn: null,
} as unknown as EquipmentEntity;

/** The lamp's task of a plan, with what its reason says of the hours. */
function lampTask(runUp: number): CareTaskView {
  const inputs = [
    { name: 'load', value: 'lamp-hours', unit: '' },
    { name: 'limit', value: 9000, unit: 'h' },
    { name: 'run-up', value: runUp, unit: 'h' },
    { name: 'reached-on', value: civilDay('2027-10-06'), unit: 'day' },
    { name: 'machine', value: 'Lamp', unit: '' },
  ];
  return { task: { planned: { reason: { inputs } } } } as unknown as CareTaskView;
}

const line = (runUp: number) =>
  machineLines(
    [lamp],
    { tasks: [lampTask(runUp)], notDue: [] },
    { volumeL: 10_000 },
    civilDay('2027-06-01'),
    'metric',
  )[0];

describe('a lamp on the page of a pond', () => {
  it('is told by its hours, and what of its first light they leave', () => {
    // 1 - 0.2 x 4500 / 9000 (derived).
    expect(line(4500)).toMatchObject({
      usedShare: 0.5,
      detail: expect.stringContaining('about 90 % of its first light'),
    });
    expect(line(4500)?.detail).toContain('4,500 of 9,000 h, about 90 %');
    expect(line(0)?.detail).toContain('about 100 % of its first light');
    expect(line(20_000)?.detail).toContain('about 80 % of its first light');
  });
});
