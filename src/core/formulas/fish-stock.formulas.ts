import {
  oxygenDemand,
  winbergOxygenUseMgPerKgH,
  yamanakaCriticalOxygenMgPerL,
  yamanakaOxygenUseMgPerKgH,
} from '../stock/oxygen-demand.js';
import { judgeStock, type StockLimit } from '../stock/stock-judgement.js';
import type { Stocking } from '../stock/stocking.js';
import type { Formula } from './formula.js';
import { asked, asSpecies, COUNT, FEED, LENGTH, SPECIES, WATER, worked } from './stock-inputs.js';

const VERDICT_WORDS: Readonly<Record<Stocking, string>> = {
  comfortable: 'comfortable',
  full: 'a full pond',
  over: 'overstocked',
  'far-over': 'far overstocked',
};
const LIMIT_WORDS: Readonly<Record<StockLimit, string>> = { water: 'water', filter: 'filter', oxygen: 'oxygen' };

/** Oxygen, and the verdict on a stock. */
export const FISH_STOCK_FORMULAS: readonly Formula[] = [
  {
    id: 'fish-oxygen-use',
    field: 'fish',
    title: 'Oxygen a fish uses',
    usedFor: 'The oxygen of the night, and what aeration has to bring in.',
    equations: [
      'Winberg: Q = 0.336 W^0.80 mL/h at 20 °C, divided by q(T)',
      'Yamanaka: Q = 0.0674 W^−0.193 e^(0.0562 T) mg/g/h',
      'critical oxygen: Pc = 1.35 W^−0.107 mg/L',
    ],
    inputs: [asked('fishMassG', 'W', 'Mass of the fish', 'g', [0.01, 50_000, 1000]), WATER],
    symbols: [
      {
        symbol: 'q',
        meaning: 'At 5, 10, 15, 20, 25 and 30 °C; between them on a line of logarithms',
        unit: '',
        value: '5.19, 2.67, 1.57, 1, 0.609, 0.437',
      },
    ],
    validity:
      'Winberg 5 to 30 °C, colder and warmer count as the ends. Yamanaka measured larvae and young fish at 15 to 30 °C. Neither is of grown koi: at 1 kg they differ by a factor of two.',
    source: 'Winberg (1956) (from memory); Yamanaka et al. (2013), J. Appl. Ichthyol. 29, 891 (published source)',
    caution: 'Far below the oxygen fish do well in: a pond is kept at 6 mg/L at dawn.',
    compute: (values) => {
      const fish = { fishMassG: values.number('fishMassG'), temperatureC: values.number('temperatureC') };
      return [
        worked('Winberg', 'Use of a quiet fish', winbergOxygenUseMgPerKgH(fish), 'mg/kg/h', 0),
        worked('Yamanaka', 'Use of a quiet fish', yamanakaOxygenUseMgPerKgH(fish), 'mg/kg/h', 0),
        worked('Pc', 'Below this it cannot breathe as at rest', yamanakaCriticalOxygenMgPerL(fish), 'mg/L'),
      ];
    },
  },
  {
    id: 'stock-oxygen-demand',
    field: 'fish',
    title: 'Oxygen a stock uses',
    usedFor: 'The verdict on the stock by its oxygen.',
    equations: ['demand = the larger of 1.5 · Winberg and 0.5 F / 24', 'no growth above 28 °C'],
    inputs: [SPECIES, COUNT, { ...LENGTH, example: 40 }, { ...WATER, example: 25 }, { ...FEED, example: 120 }],
    symbols: [
      { symbol: '1.5', meaning: 'A fed, moving fish over a quiet one', unit: '' },
      { symbol: '0.5', meaning: 'Oxygen per food, fish and bacteria together; 0.4 to 1.0', unit: 'g/g' },
    ],
    validity: 'Shown as a range. Turtles breathe air.',
    source: 'Factors common practice and from memory; koi use less again at 30 °C (Water 17(5), 666, 2025)',
    compute: (values) => {
      const demand = oxygenDemand({
        stock: [
          {
            species: asSpecies(values.choice('species')),
            count: values.number('count'),
            lengthCm: values.number('lengthCm'),
          },
        ],
        waterTemperatureC: values.number('temperatureC'),
        feedGPerDay: values.number('feedGPerDay'),
      });
      return [
        worked('demand', 'To plan for', demand.demandGPerH, 'g/h', 1),
        worked('low', 'Quiet fish, lower formula', demand.lowGPerH, 'g/h', 1),
        worked('high', 'Quiet fish, higher formula', demand.highGPerH, 'g/h', 1),
      ];
    },
  },
  {
    id: 'stock-verdict',
    field: 'fish',
    title: 'Is the pond full?',
    usedFor: 'The verdict on the stock on the page of a pond, and the warnings beside it.',
    equations: [
      'use of the water = live mass / volume / 2 kg/m³',
      'use of the filter = ammonia of the food at 25 °C / what the media take at 25 °C',
      'use of the oxygen = demand at 30 °C / what aeration brings in at 30 °C at 5 mg/L',
      'the largest counts: up to 0.5 comfortable, up to 1 full, up to 2 over, above far over',
    ],
    inputs: [
      asked('koi', 'n', 'Koi', '', [0, 1000, 10]),
      asked('lengthCm', 'L', 'Length of the koi', 'cm', [1, 120, 50]),
      asked('turtles', 'nt', 'Turtles, shell 20 cm', '', [0, 100, 0]),
      asked('volumeL', 'V', 'Volume', 'L', [1, 1_000_000, 15_000]),
      asked('areaM2', 'Am', 'Surface of the media', 'm²', [0.1, 10_000, 60]),
      asked('oxygenGPerH', 'OTR', 'Oxygen the aeration brings in', 'g/h', [0.1, 10_000, 20]),
    ],
    symbols: [],
    validity:
      'Rules in print differ tenfold; this one goes by mass, because an inch of a large fish weighs many times an inch of a small one. What is not known is said and left out.',
    source: 'Common practice',
    compute: (values) => {
      const judged = judgeStock({
        stock: [
          { species: 'koi', count: values.number('koi'), lengthCm: values.number('lengthCm') },
          { species: 'slider-turtle', count: values.number('turtles'), lengthCm: 20 },
        ],
        volumeL: values.number('volumeL'),
        mediaAreaM2: values.number('areaM2'),
        oxygenSupplyGPerH: values.number('oxygenGPerH'),
      });
      return [
        worked('verdict', 'The pond is', VERDICT_WORDS[judged.verdict]),
        worked('limit', 'What runs out first', LIMIT_WORDS[judged.limiting.limit]),
        worked('mass', 'Live mass, turtles as koi', judged.totalKg, 'kg', 1),
        ...judged.measures.map(({ limit, use }) => worked(limit, `Use of the ${LIMIT_WORDS[limit]}`, use)),
      ];
    },
  },
];
