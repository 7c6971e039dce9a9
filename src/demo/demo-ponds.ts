import type { Species, TapSource } from '../core/care/pond-facts.js';

/** Three real places with unlike climates. The people, streets and firms of the demo are invented. */
export const DEMO_PLACES = {
  madison: {
    town: 'Madison',
    region: 'WI',
    country: 'US',
    latitude: 43.0731,
    longitude: -89.4012,
    elevationM: 262,
    timeZone: 'America/Chicago',
  },
  phoenix: {
    town: 'Phoenix',
    region: 'AZ',
    country: 'US',
    latitude: 33.4484,
    longitude: -112.074,
    elevationM: 331,
    timeZone: 'America/Phoenix',
  },
  seattle: {
    town: 'Seattle',
    region: 'WA',
    country: 'US',
    latitude: 47.6062,
    longitude: -122.3321,
    elevationM: 54,
    timeZone: 'America/Los_Angeles',
  },
} as const;

export type DemoPlace = keyof typeof DEMO_PLACES;
export type DemoMachinery = 'koi-full' | 'koi-two-circuits' | 'garden' | 'small-circuit' | 'bubbler';

export interface DemoPond {
  readonly place: DemoPlace;
  /** Family name: the pond is called after it, and so is the homeowner. */
  readonly family: string;
  readonly given: string;
  readonly street: string;
  readonly sizeM: readonly [lengthM: number, widthM: number, meanDepthM: number, maxDepthM: number];
  readonly form: 'rectangle' | 'ellipse';
  readonly machinery: DemoMachinery;
  readonly stock: readonly (readonly [species: Species, headCount: number, lengthCm: number])[];
  readonly tap: readonly [source: TapSource, totalChlorineMgPerL: number | null];
  readonly directSunHours: number;
  readonly windShelter: 'open' | 'suburban' | 'walled';
  readonly treesNear: boolean;
  readonly builtYearsAgo: number;
  readonly mail: boolean;
  /** Filled days ago, not yet stocked: the pond is running in. */
  readonly runningInDays?: number;
}

type Row = [
  DemoPlace,
  string,
  string,
  string,
  DemoPond['sizeM'],
  DemoPond['form'],
  DemoMachinery,
  DemoPond['stock'],
  DemoPond['tap'],
  number,
  DemoPond['windShelter'],
  boolean,
  number,
  boolean,
  number?,
];

// biome-ignore format: a table, one pond a line
const ROWS: readonly Row[] = [
  ['madison', 'Haugen', 'Ida', '18 Larkfield Lane', [5, 2.4, 0.95, 1.27], 'rectangle', 'koi-full', [['koi', 11, 38]], ['chloramine', 1.8], 12, 'suburban', true, 3, true],
  ['madison', 'Okafor', 'Chidi', '402 Willow Terrace', [6, 3.5, 1.1, 1.5], 'ellipse', 'koi-two-circuits', [['koi', 16, 42]], ['chloramine', 1.8], 13, 'suburban', true, 5, true],
  ['madison', 'Petrakis', 'Eleni', '77 Cooper Hill', [4, 3, 0.7, 0.9], 'ellipse', 'garden', [['goldfish', 18, 14]], ['chloramine', 1.8], 11, 'walled', true, 7, true],
  ['madison', 'Whitcombe', 'Alan', '9 Orchard Rise', [7, 4, 1.2, 1.6], 'rectangle', 'koi-two-circuits', [['koi', 24, 45]], ['well', null], 14, 'open', false, 2, true],
  ['madison', 'Delacroix', 'Margot', '233 Bluestem Road', [3.5, 2.5, 0.6, 0.8], 'ellipse', 'garden', [['goldfish', 10, 12]], ['chloramine', 1.8], 10, 'walled', true, 4, true],
  ['madison', 'Abara', 'Nneka', '15 Fen Street', [5, 3, 1, 1.3], 'ellipse', 'koi-full', [['koi', 9, 40]], ['chloramine', 1.8], 12, 'suburban', true, 1, true],
  ['madison', 'Brandt', 'Jonas', '60 Quarry Close', [4.5, 2.5, 0.9, 1.2], 'rectangle', 'small-circuit', [['koi', 7, 35]], ['chloramine', 1.8], 12, 'suburban', false, 3, true],
  ['madison', 'Lindgren', 'Sven', '121 Heron Way', [4, 2.5, 0.8, 1], 'ellipse', 'garden', [['goldfish', 14, 15]], ['well', null], 13, 'open', false, 9, true],
  ['madison', 'Moreau', 'Claire', '5 Tannery Lane', [5.5, 3, 1.1, 1.4], 'ellipse', 'koi-full', [['koi', 12, 36], ['goldfish', 6, 15]], ['chloramine', 1.8], 12, 'suburban', true, 6, true],
  ['madison', 'Vance', 'Ruth', '88 Millrace Drive', [3, 2, 0.5, 0.6], 'rectangle', 'bubbler', [['goldfish', 6, 10]], ['chloramine', 1.8], 9, 'walled', true, 2, false],
  ['madison', 'Novak', 'Petr', '310 Ridge Avenue', [6, 4, 1.15, 1.5], 'ellipse', 'koi-two-circuits', [], ['chloramine', 1.8], 13, 'suburban', false, 0, true, 9],
  ['madison', 'Ferris', 'Dolores', '42 Sandbar Court', [4, 3, 0.9, 1.1], 'ellipse', 'koi-full', [['slider-turtle', 2, 20], ['goldfish', 8, 14]], ['chloramine', 1.8], 13, 'suburban', false, 4, true],
  ['phoenix', 'Ibarra', 'Luz', '1450 Palo Verde Place', [6, 3, 1.2, 1.5], 'rectangle', 'koi-two-circuits', [['koi', 14, 44]], ['chlorine', 1.1], 15, 'walled', false, 4, true],
  ['phoenix', 'Castellan', 'Hugo', '27 Ocotillo Circle', [5, 3, 1.1, 1.4], 'ellipse', 'koi-full', [['koi', 10, 38]], ['chlorine', 1.1], 14, 'walled', false, 2, true],
  ['phoenix', 'Tran', 'Mai', '908 Saguaro Bend', [4, 2.5, 0.9, 1.2], 'ellipse', 'garden', [['goldfish', 12, 16]], ['chlorine', 1.1], 13, 'suburban', true, 3, true],
  ['phoenix', 'Reyes', 'Oscar', '64 Mesquite Lane', [7, 4, 1.3, 1.7], 'rectangle', 'koi-two-circuits', [['koi', 20, 46]], ['chlorine', 1.1], 16, 'open', false, 6, true],
  ['phoenix', 'Yazzie', 'Dawn', '3 Canyon Wash Road', [3.5, 2, 0.8, 1], 'rectangle', 'garden', [['goldfish', 8, 13]], ['well', null], 15, 'open', false, 5, true],
  ['phoenix', 'Holm', 'Greta', '512 Adobe Street', [5, 2.5, 1, 1.3], 'ellipse', 'koi-full', [['koi', 8, 41]], ['chlorine', 1.1], 14, 'walled', false, 1, true],
  ['phoenix', 'Baptiste', 'Remy', '77 Agave Court', [4, 3, 0.9, 1.1], 'ellipse', 'small-circuit', [['koi', 6, 33]], ['chlorine', 1.1], 13, 'suburban', true, 3, false],
  ['phoenix', 'Silva', 'Ines', '230 Mirage Avenue', [5, 3.5, 1, 1.3], 'ellipse', 'koi-full', [['slider-turtle', 3, 22]], ['chlorine', 1.1], 15, 'suburban', false, 2, true],
  ['phoenix', 'Okoye', 'Ada', '19 Prickly Pear Way', [6, 3, 1.2, 1.5], 'rectangle', 'koi-two-circuits', [], ['chlorine', 1.1], 15, 'walled', false, 0, true, 16],
  ['seattle', 'Kowalski', 'Ewa', '2204 Alder Steps', [5, 3, 1, 1.3], 'ellipse', 'koi-full', [['koi', 10, 37]], ['chlorine', 0.9], 11, 'walled', true, 4, true],
  ['seattle', 'Nakano', 'Ken', '810 Fernwood Hill', [6, 3, 1.2, 1.5], 'rectangle', 'koi-two-circuits', [['koi', 15, 43]], ['chlorine', 0.9], 11, 'suburban', true, 8, true],
  ['seattle', 'Baird', 'Fiona', '47 Harbor Lane', [4, 2.5, 0.8, 1], 'ellipse', 'garden', [['goldfish', 15, 15]], ['chlorine', 0.9], 10, 'suburban', true, 6, true],
  ['seattle', 'Ostrander', 'Paul', '133 Madrona Court', [3, 2, 0.6, 0.7], 'rectangle', 'bubbler', [['goldfish', 5, 11]], ['chlorine', 0.9], 10, 'walled', true, 2, false],
  ['seattle', 'Grieve', 'Morag', '66 Cedar Ramble', [5.5, 3.5, 1.1, 1.4], 'ellipse', 'koi-full', [['koi', 13, 39]], ['well', null], 12, 'open', false, 5, true],
  ['seattle', 'Sandoval', 'Rosa', '9 Mossy Bank', [4.5, 3, 0.9, 1.2], 'ellipse', 'small-circuit', [['koi', 6, 36]], ['chlorine', 0.9], 11, 'suburban', true, 1, true],
  ['seattle', 'Eriksen', 'Tor', '350 Lakeview Walk', [7, 3.5, 1.2, 1.6], 'rectangle', 'koi-two-circuits', [['koi', 18, 45]], ['chlorine', 0.9], 12, 'open', false, 7, true],
  ['seattle', 'Mbeki', 'Thandi', '28 Salal Street', [4, 2.5, 0.9, 1.1], 'ellipse', 'garden', [['goldfish', 11, 14]], ['chlorine', 0.9], 11, 'walled', true, 3, true],
  ['seattle', 'Fairbairn', 'Colin', '5 Ferry Road', [5, 3, 1, 1.2], 'ellipse', 'koi-full', [['koi', 9, 40], ['goldfish', 5, 16]], ['chlorine', 0.9], 11, 'suburban', true, 4, true],
];

export const DEMO_PONDS: readonly DemoPond[] = ROWS.map(
  ([
    place,
    family,
    given,
    street,
    sizeM,
    form,
    machinery,
    stock,
    tap,
    directSunHours,
    windShelter,
    treesNear,
    builtYearsAgo,
    mail,
    runningInDays,
  ]) => ({
    place,
    family,
    given,
    street,
    sizeM,
    form,
    machinery,
    stock,
    tap,
    directSunHours,
    windShelter,
    treesNear,
    builtYearsAgo,
    mail,
    ...(runningInDays !== undefined && { runningInDays }),
  }),
);
