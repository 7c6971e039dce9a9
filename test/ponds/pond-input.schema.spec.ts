import { describe, expect, it } from '@jest/globals';
import { PondInputRefusedError, readPondInput, storedVolumeOf, timeZoneOf } from '../../src/ponds/index.js';
import { aPond, aTypedPond } from '../support/typed-pond.js';

function faultsOf(own: Record<string, unknown>) {
  try {
    readPondInput({ ...aTypedPond(), ...own });
    return [];
  } catch (error) {
    return (error as PondInputRefusedError).faults;
  }
}

describe('readPondInput', () => {
  it.each([
    ['an empty name', { name: '  ' }, 'name', /may not be empty/],
    ['a latitude typed without its point', { latitude: 4307 }, 'latitude', /-90 to 90.*given: 4307/],
    ['a number that is none', { elevationM: Number.NaN }, 'elevationM', /a number from -430 to 5500/],
    ['a text for a number', { elevationM: '270' }, 'elevationM', /given: 270/],
    ['an unknown field', { colour: 'red' }, 'unrecognized_keys', /colour/],
    ['a zone that is none', { timeZone: 'Central' }, 'timeZone', /IANA/],
    ['an offset for a zone', { timeZone: '+05:00' }, 'timeZone', /IANA/],
    ['an unknown machine', { equipment: [{ kind: 'rocket' }] }, 'equipment.0.kind', /one of pump/],
    [
      'a warranty before the installation',
      { equipment: [{ kind: 'pump', installedOn: '2025-01-02', warrantyUntil: '2025-01-01' }] },
      'equipment.0.warrantyUntil',
      /not before/,
    ],
    ['half a fish', { stock: [{ species: 'koi', count: 1.5, lengthCm: 30 }] }, 'stock.0.count', /whole number/],
    [
      'a fish of three metres',
      { stock: [{ species: 'koi', count: 1, lengthCm: 300 }] },
      'stock.0.lengthCm',
      /1 to 120 cm/,
    ],
    [
      'chlorine no tap may have',
      { tap: { source: 'chlorine', totalChlorineMgPerL: 40 } },
      'tap.totalChlorineMgPerL',
      /0 to 10/,
    ],
    ['the 30th of February', { commissionedOn: '2026-02-30' }, 'commissionedOn', /YYYY-MM-DD/],
    [
      'livestock before water',
      { commissionedOn: '2026-02-01', stockedOn: '2026-01-01' },
      'stockedOn',
      /not before the pond was filled/,
    ],
    ['a zone of no hardiness', { hardinessZone: '14c' }, 'hardinessZone', /USDA zone/],
    [
      'a metered volume without an area',
      { water: { method: 'metered', volumeL: 9000 } },
      'water.surfaceAreaM2',
      /surface area: needed/,
    ],
    [
      'a bucket',
      { water: { method: 'metered', volumeL: 60, surfaceAreaM2: 0.1, maxDepthM: 0.8 } },
      'water.shape',
      /no garden pond/,
    ],
    [
      'a mean depth below the deepest point',
      {
        water: {
          method: 'shape',
          shape: { kind: 'circle', diameterM: 3, depth: { kind: 'average', meanDepthM: 2, maxDepthM: 1 } },
        },
      },
      'water.shape',
      /mean depth/,
    ],
  ])('refuses %s and names the field', (_, own, field, allowed) => {
    expect(faultsOf(own)).toContainEqual(expect.objectContaining({ field, allowed: expect.stringMatching(allowed) }));
  });

  it('fills in what may be left out', () => {
    const { name, latitude, longitude, elevationM, water } = aTypedPond();
    expect(readPondInput({ name, latitude, longitude, elevationM, water })).toMatchObject({
      country: 'US',
      directSunHours: 6,
      windShelter: 'suburban',
      tap: { source: 'unknown', totalChlorineMgPerL: null },
      equipment: [],
      contacts: [],
    });
  });

  it('gives a contact without choices the usual day and hour of the digest', () => {
    const { contacts } = aPond({ contacts: [{ name: 'Ana Field', email: ' Ana@Example.com ' }] });
    expect(contacts).toMatchObject([
      { email: 'ana@example.com', role: 'homeowner', digestWeekday: 6, digestHour: 8, getsMail: true },
    ]);
  });
});

describe('storedVolumeOf', () => {
  it('stores the method and the uncertainty with a computed volume', () => {
    const shape = {
      kind: 'rectangle',
      lengthM: 4,
      widthM: 3,
      depth: { kind: 'vertical', depthM: 1 },
      rockShare: 0,
    } as const;
    expect(storedVolumeOf({ method: 'shape', shape })).toMatchObject({
      volumeL: 12_000,
      volumeMethod: 'vertical-sides',
      meanDepthM: 1,
    });
  });

  it('takes the mean depth from a measured volume, never deeper than the deepest point', () => {
    const water = { method: 'metered', volumeL: 10_400, surfaceAreaM2: 10, maxDepthM: 1 } as const;
    expect(storedVolumeOf(water)).toMatchObject({ volumeL: 10_400, meanDepthM: 1, volumeSigmaPct: 2 });
  });
});

describe('timeZoneOf', () => {
  it.each([
    [43.07, -89.4, 'America/Chicago'],
    [-34.9, 138.6, 'Australia/Adelaide'],
    [52.1, 5.18, 'Europe/Amsterdam'],
  ])('of %d, %d is %s', (latitude, longitude, zone) => {
    expect(timeZoneOf({ latitude, longitude })).toBe(zone);
  });
});
