import { describe, expect, it } from '@jest/globals';
import { civilDay } from '../../../src/core/units/civil-day.js';
import type { EquipmentEntity } from '../../../src/ponds/index.js';
import { energyModel } from '../../../src/web/office/ponds/page/energy.view-model.js';
import { machineLines } from '../../../src/web/office/ponds/page/machinery.view-model.js';

const LINE = { liftM: 1.5, lengthM: 8, insideDiameterMm: 40.9, wall: 'smooth-plastic', elbows: 3 } as const;
const pump = (rated: EquipmentEntity['rated']) =>
  ({ kind: 'pump', name: 'Main pump', rated, installedOn: null, warrantyUntil: null }) as EquipmentEntity;
const detailOf = (rated: EquipmentEntity['rated']) =>
  machineLines([pump(rated)], { tasks: [], notDue: [] }, { volumeL: 9000 }, civilDay('2026-10-05'), 'metric')[0]
    ?.detail;

describe('words for a pump', () => {
  it('go by its plate until lift and pipe are known', () => {
    expect(detailOf({ flowLPerH: 9000 })).toMatch(/^the pond once in 1 h by its plate/);
  });

  it('go by what it moves once they are', () => {
    expect(detailOf({ flowLPerH: 10_000, maxHeadM: 5, line: LINE })).toMatch(
      /^moves 7,\d{3} L\/h against 2\.\d{2} m, the pond once in 1 h 1\d min; age not known/,
    );
    const narrow = detailOf({ flowLPerH: 10_000, maxHeadM: 8, line: { ...LINE, insideDiameterMm: 26.6 } });
    expect(narrow).toContain('too fast in its pipe');
    expect(detailOf({ flowLPerH: 10_000, maxHeadM: 1, line: LINE })).toContain('does not reach its outlet');
  });
});

describe('energy of the pumps', () => {
  const machines = [pump({ powerW: 120 }), pump({ flowLPerH: 3000 })];

  it('is that of a year, day and night, for each pump with watts', () => {
    expect(energyModel(machines, '')).toEqual({
      lines: [{ name: 'Main pump', detail: '120 W, day and night', value: '1,050 kWh a year' }],
      price: '',
      fault: '',
    });
  });

  it('has a cost at a price, which is that of the whole kilowatt-hours and not of the rounded ones', () => {
    expect(energyModel(machines, '0.17').lines[0]?.value).toBe('1,050 kWh a year, 178.70');
    expect(energyModel(machines, '0,1648').lines[0]?.value).toBe('1,050 kWh a year, 173.24');
  });

  it.each(['-1', 'cheap', '99'])('says what to write instead of %s', (typed) => {
    const energy = energyModel(machines, typed);
    expect(energy.fault).toMatch(/Write the price of one kWh in your currency, 0 to 10/);
    expect(energy.lines[0]?.value).toBe('1,050 kWh a year');
  });
});
