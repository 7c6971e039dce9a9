import { type PondInput, type PondInputTyped, readPondInput } from '../../src/ponds/index.js';

/** A koi pond of about 10,000 L in Madison, Wisconsin, with pump, filters and lamp; name what matters to the test. */
export function aPond(own: Partial<PondInputTyped> = {}): PondInput {
  return readPondInput(aTypedPond(own));
}

/** The same before it is checked: what a form or a program sends. */
export function aTypedPond(own: Partial<PondInputTyped> = {}): PondInputTyped {
  return {
    name: 'Back garden',
    street: '4 Elm Street',
    town: 'Madison',
    region: 'WI',
    postalCode: '53703',
    country: 'US',
    latitude: 43.07,
    longitude: -89.4,
    elevationM: 270,
    water: {
      method: 'shape',
      shape: {
        kind: 'ellipse',
        lengthM: 5,
        widthM: 3,
        depth: { kind: 'average', meanDepthM: 0.9, maxDepthM: 1.2 },
      },
    },
    directSunHours: 6,
    windShelter: 'suburban',
    treesNear: true,
    plants: ['hardy-lily', 'marginal'],
    tap: { source: 'chlorine', totalChlorineMgPerL: 1.2 },
    commissionedOn: '2020-05-01',
    stockedOn: '2020-06-15',
    careSince: '2026-03-01',
    equipment: [
      { kind: 'pump', name: 'Main pump', installedOn: '2024-04-01', rated: { flowLPerH: 12000, powerW: 110 } },
      { kind: 'mechanical-filter', name: 'Foam', rated: { mediaVolumeL: 40 } },
      { kind: 'biological-filter', name: 'Bed', rated: { mediaVolumeL: 60, mediaAreaM2PerM3: 500 } },
      { kind: 'uv-lamp', name: 'Lamp', installedOn: '2026-04-01', rated: { powerW: 36, lampRatedHours: 9000 } },
    ],
    stock: [{ species: 'koi', count: 8, lengthCm: 35 }],
    ...own,
  };
}
