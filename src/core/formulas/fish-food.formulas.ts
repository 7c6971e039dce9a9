import { solidsLoadGPerDay } from '../filter/rinse-interval.js';
import { ammoniaLoadGNPerDay, turtleFeedGPerDay } from '../stock/ammonia-load.js';
import { maintenanceRationShare, suitableFeed } from '../stock/feed-kinds.js';
import { feedFor, feedRationShare } from '../stock/feed-ration.js';
import type { Formula } from './formula.js';
import { asked, asSpecies, COUNT, FEED, LENGTH, SPECIES, WATER, worked } from './stock-inputs.js';

const FEED_WORDS = { light: 'light food', staple: 'staple food', growth: 'growth food' } as const;

/** What fish are given, and what of it the water gets. */
export const FISH_FOOD_FORMULAS: readonly Formula[] = [
  {
    id: 'feed-ration',
    field: 'fish',
    title: 'Food by temperature and size',
    usedFor: 'The grams of food of each week, on the calendar and in the mails.',
    equations: [
      'F = n W r(T, W), T the lower of the 3-day and 7-day mean',
      'r: 0.2 % from 10 °C, 0.4 from 13, 0.7 from 16, 1.0 from 20, 1.2 from 25, 1.0 from 28, 0.5 from 30 to 32 (fish above 500 g)',
      'half from a daily maximum of 28 °C, nothing from 30, unless dawn oxygen of 6 mg/L was measured that day',
    ],
    inputs: [
      SPECIES,
      COUNT,
      { ...LENGTH, example: 40 },
      { ...WATER, example: 22 },
      asked('maxC', 'Tmax', 'Highest water of the day', '°C', [-1, 45, 23]),
    ],
    symbols: [
      { symbol: 'W', meaning: 'Mass of a fish from its length', unit: 'g' },
      {
        symbol: 'r',
        meaning: 'Smaller fish get more: 50 to 500 g about one and a half, below 50 g twice as much',
        unit: '%',
      },
    ],
    validity: 'A care diet, not a growth diet. Nothing below 10 °C (no setting opens it below 8) and above 32 °C.',
    source:
      'Common practice; adult rations lie at 0.4 to 1.1 of what young carp need to keep their mass, Goolish & Adelman (1984)',
    caution: 'Temperatures at which feeding stops differ in print from 8 to 13 °C.',
    compute: (values) => {
      const waterC = values.number('temperatureC');
      const feed = feedFor({
        stock: [
          {
            species: asSpecies(values.choice('species')),
            count: values.number('count'),
            lengthCm: values.number('lengthCm'),
          },
        ],
        waterTemperature7dMeanC: waterC,
        waterTemperature3dMeanC: waterC,
        waterTemperatureMaxC: values.number('maxC'),
      });
      return [
        worked('F', 'Food a day', feed.feedGPerDay, 'g', 0),
        worked('kind', 'Kind of food', feed.kind === 'none' ? 'none' : FEED_WORDS[feed.kind]),
      ];
    },
  },
  {
    id: 'feed-kinds',
    field: 'fish',
    title: 'Kind of food, and what only keeps a fish',
    usedFor: 'Which food suits the water, and a check that the ration does not starve young fish.',
    equations: [
      'light below 16 °C, staple from 15, growth food for fish below 500 g at 20 to 28 °C',
      'm(T): on lines between 0.40 % at 12 °C, 0.75 at 18, 1.20 at 24 and 1.90 at 30 °C',
    ],
    inputs: [
      asked('fishMassG', 'W', 'Mass of the fish', 'g', [1, 50_000, 100]),
      { ...WATER, min: 12, max: 30, example: 22 },
    ],
    symbols: [
      { symbol: 'protein', meaning: 'Light; staple; growth food', unit: '%', value: 'up to 30; 30 to 35; 35 to 40' },
    ],
    validity: 'm is of young carp at 12 to 30 °C and is refused elsewhere; adults need less.',
    source: 'Kinds common practice; m Goolish & Adelman (1984), Aquaculture 36, 27-35 (published source)',
    compute: (values) => {
      const fish = { fishMassG: values.number('fishMassG'), waterTemperatureC: values.number('temperatureC') };
      const kinds = suitableFeed(fish).map((kind) => FEED_WORDS[kind]);
      return [
        worked('kind', 'Food that suits, the best first', kinds.join(', ') || 'none'),
        worked('r', 'Ration, as a share of body mass', feedRationShare(fish), '1/d', 4),
        worked(
          'm',
          'Only keeps a young carp',
          maintenanceRationShare({ temperatureC: fish.waterTemperatureC }),
          '1/d',
          4,
        ),
      ];
    },
  },
  {
    id: 'ammonia-from-food',
    field: 'fish',
    title: 'Ammonia from food',
    usedFor: 'The load on the filter, nitrate, and the waste told on the page of a pond.',
    equations: ['P = 0.092 F PC', '0.092 = 0.16 N in protein · 0.80 taken up · 0.80 excreted · 0.90 as ammonia'],
    inputs: [FEED, asked('proteinShare', 'PC', 'Protein of the food, share', '', [0, 0.8, 0.35])],
    symbols: [],
    validity:
      'Food that is eaten. In print 0.07 to 0.13; in trout only 53 to 68 % of the nitrogen was ammonia, so it is high.',
    source: 'Timmons & Ebeling, Recirculating Aquaculture (published source, quoted by a teaching text)',
    compute: (values) => [
      worked(
        'P',
        'Ammonia as nitrogen, a day',
        ammoniaLoadGNPerDay({
          feedGPerDay: values.number('feedGPerDay'),
          feedProteinShare: values.number('proteinShare'),
        }),
        'g N',
      ),
    ],
  },
  {
    id: 'turtle-food',
    field: 'fish',
    title: 'Food of turtles',
    usedFor: 'The load of turtles on the filter and on nitrate.',
    equations: ['Ft = 10 g/kg · Wk, less from 20 °C down, nothing below 15 °C'],
    inputs: [
      asked('count', 'n', 'Number of turtles', '', [0, 1000, 2]),
      asked('shellLengthCm', 'S', 'Length of the shell', 'cm', [2, 40, 20]),
      { ...WATER, example: 24 },
    ],
    symbols: [{ symbol: 'Wk', meaning: 'The turtles as koi', unit: 'kg' }],
    validity: 'Sliders. Nothing measured was found: a factor of three either way.',
    source: 'Common practice; our own rule',
    compute: (values) => [
      worked(
        'Ft',
        'Staple food that loads the pond as much, a day',
        turtleFeedGPerDay({
          stock: [
            { species: 'slider-turtle', count: values.number('count'), lengthCm: values.number('shellLengthCm') },
          ],
          waterTemperature7dMeanC: values.number('temperatureC'),
        }),
        'g',
        1,
      ),
    ],
  },
  {
    id: 'solids-from-food',
    field: 'fish',
    title: 'Solids that reach the filter',
    usedFor: 'When the filter media are next rinsed.',
    equations: ['load = y F η + B A'],
    inputs: [
      { ...FEED, example: 100 },
      asked('areaM2', 'A', 'Surface of the pond', 'm²', [0, 10_000, 12]),
      asked('ambient', 'B', 'Dust, pollen and leaf crumbs', 'g/m²/d', [0, 3, 0.5]),
    ],
    symbols: [
      { symbol: 'y', meaning: 'Dry solids of food; 0.2 to 0.5 in print', unit: '', value: '0.30' },
      { symbol: 'η', meaning: 'Caught over many passes; 0.4 to 0.9', unit: '', value: '0.7' },
    ],
    validity: 'Dry solids, the mean of a day. In leaf fall and pollen B is three times as much.',
    source: 'Mass balance; y chosen inside a published band (0.2 to 0.7 for catfish), the rest common practice',
    compute: (values) => [
      worked(
        'load',
        'Dry solids caught a day',
        solidsLoadGPerDay({
          feedGPerDay: values.number('feedGPerDay'),
          surfaceAreaM2: values.number('areaM2'),
          ambientSolidsGPerM2Day: values.number('ambient'),
        }),
        'g',
        1,
      ),
    ],
  },
];
