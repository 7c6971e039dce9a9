import { extraterrestrialMjPerM2Day, saturationVapourPressureKPa } from '../climate/fao56.js';
import {
  evaporationFromPanMm,
  evaporationFromReferenceMmPerDay,
  poolEvaporationMmPerDay,
} from '../evaporation/other-evaporation.js';
import { noWindEvaporationMmPerDay, penmanEvaporationMmPerDay } from '../evaporation/penman.js';
import { largestTopUpL, solutesAfterTopUpMgPerL, topUpLPerDay } from '../evaporation/top-up.js';
import type { Formula } from './formula.js';
import { asked, worked } from './stock-inputs.js';
import { AREA, EVAPORATION, FALLS, hasFalls } from './water-loss-inputs.js';

const SUN = asked('solarMjPerM2Day', 'Rs', 'Sun at the ground', 'MJ/m²/d', [0, 35, 20.4]);
const AIR_MIN = asked('minC', 'Tmin', 'Lowest air temperature', '°C', [-20, 28.8, 15.1]);
const AIR_MAX = asked('maxC', 'Tmax', 'Highest air temperature', '°C', [15.1, 45, 28.8]);
const LATITUDE = asked('latitude', 'φ', 'Latitude', '°', [-65, 65, -34.9]);
const DAY = asked('dayOfYear', 'J', 'Day of the year', 'd', [1, 366, 60]);

/** What leaves a pond into the air, and what makes up for it. */
export const WATER_LOSS_EVAPORATION_FORMULAS: readonly Formula[] = [
  {
    id: 'evaporation-penman',
    field: 'water-loss',
    title: 'Evaporation with wind',
    usedFor: 'A check on the form without wind: where wind and humidity over a pond are known it is the better one.',
    equations: [
      'E = Δ / (Δ + γ) · Rn / 2.45 + γ / (Δ + γ) · (2.626 + 1.381 u2)(es − ea)',
      'Rn = 0.92 Rs − Rnl; Δ, γ, es and Rnl after FAO-56',
    ],
    inputs: [
      LATITUDE,
      DAY,
      AIR_MIN,
      AIR_MAX,
      SUN,
      asked('humidityPct', 'RH', 'Mean humidity', '%', [5, 100, 45]),
      asked('windMPerS', 'u2', 'Wind 2 m over the pond', 'm/s', [0, 10, 2.19]),
    ],
    symbols: [
      { symbol: 'ea', meaning: 'Vapour pressure of the air', unit: 'kPa' },
      { symbol: 'Rnl', meaning: 'Net longwave loss', unit: 'MJ/m²/d' },
    ],
    validity:
      'Shallow water, good to 1 to 2 mm on one day, better by the week. No area factor: its wind comes from small tanks.',
    source:
      'Penman (1948) as given by McMahon et al. (2013), Hydrol. Earth Syst. Sci. 17, supplement S4 (published source)',
    compute: (values) => {
      const day = {
        latitude: values.number('latitude'),
        dayOfYear: values.number('dayOfYear'),
        elevationM: 48,
        airTemperatureMinC: values.number('minC'),
        airTemperatureMaxC: values.number('maxC'),
        solarMjPerM2Day: values.number('solarMjPerM2Day'),
        vapourPressureKPa:
          (saturationVapourPressureKPa({ temperatureC: (values.number('minC') + values.number('maxC')) / 2 }) *
            values.number('humidityPct')) /
          100,
        windAt2mMPerS: values.number('windMPerS'),
      };
      return [
        worked('E', 'Evaporation', penmanEvaporationMmPerDay(day), 'mm/d'),
        worked(
          'E56',
          'With the wind function of 1956',
          penmanEvaporationMmPerDay({ ...day, windFunction: 1956 }),
          'mm/d',
        ),
      ];
    },
  },
  {
    id: 'evaporation-no-wind',
    field: 'water-loss',
    title: 'Evaporation without wind',
    usedFor: 'Top-ups through the year and the leak test: nobody knows the wind of a garden.',
    equations: ['E = 0.047 Rs √(T + 9.5) − 2.4 (Rs / Ra)² + 0.09 (T + 20)(1 − RH / 100)'],
    inputs: [
      asked('temperatureC', 'T', 'Mean air temperature', '°C', [-20, 40, 21.95]),
      asked('humidityPct', 'RH', 'Mean humidity', '%', [5, 100, 49]),
      SUN,
      LATITUDE,
      DAY,
    ],
    symbols: [{ symbol: 'Ra', meaning: 'Sun above the atmosphere', unit: 'MJ/m²/d' }],
    validity: 'Stays within 20 % of Penman on every day of the check set; 0 below −9.5 °C.',
    source: 'Valiantzas (2006), J. Hydrology 331, 690-702, eq. 33 (published source, quoted)',
    compute: (values) => [
      worked(
        'E',
        'Evaporation',
        noWindEvaporationMmPerDay({
          airTemperatureC: values.number('temperatureC'),
          relativeHumidityPct: values.number('humidityPct'),
          solarMjPerM2Day: values.number('solarMjPerM2Day'),
          extraterrestrialMjPerM2Day: extraterrestrialMjPerM2Day({
            latitude: values.number('latitude'),
            dayOfYear: values.number('dayOfYear'),
          }),
        }),
        'mm/d',
      ),
    ],
  },
  {
    id: 'evaporation-other',
    field: 'water-loss',
    title: 'Evaporation by other routes',
    usedFor: 'Comparison only: heated water by its own temperature, a pan, the water of a lawn.',
    equations: ['pool: E = 86400 (pw − pa)(0.089 + 0.0782 v) / 2450', 'pan: E = 0.7 Epan', 'lawn: E = 1.05 ET0'],
    inputs: [
      asked('waterC', 'Tw', 'Water temperature', '°C', [0, 40, 22]),
      asked('airC', 'Ta', 'Air temperature', '°C', [0, 40, 25]),
      asked('humidityPct', 'RH', 'Humidity', '%', [5, 100, 50]),
      asked('windMPerS', 'v', 'Wind at the water', 'm/s', [0, 5, 0.1]),
      asked('panMm', 'Epan', 'Loss of a Class A pan', 'mm', [0, 20, 5.4]),
      asked('referenceMm', 'ET0', 'Reference evapotranspiration', 'mm/d', [0, 15, 3.9]),
    ],
    symbols: [{ symbol: 'pw, pa', meaning: 'Vapour pressure at the water and in the air', unit: 'kPa' }],
    validity: 'The pool form hangs on the wind: 3.6 mm at 0.1 m/s are 6.3 mm at 1 m/s.',
    source: 'ASHRAE and FAO-56 table 12 (from memory); the pan from a note to an EPA table (published source, quoted)',
    compute: (values) => [
      worked(
        'Ep',
        'Pool',
        poolEvaporationMmPerDay({
          waterTemperatureC: values.number('waterC'),
          airTemperatureC: values.number('airC'),
          relativeHumidityPct: values.number('humidityPct'),
          windMPerS: values.number('windMPerS'),
        }),
        'mm/d',
      ),
      worked('Eb', 'From the pan', evaporationFromPanMm({ panMm: values.number('panMm') }), 'mm'),
      worked(
        'Er',
        'From the lawn',
        evaporationFromReferenceMmPerDay({ referenceMmPerDay: values.number('referenceMm') }),
        'mm/d',
      ),
    ],
  },
  {
    id: 'top-up',
    field: 'water-loss',
    title: 'Top-up',
    usedFor: 'The litres a week of the task “Top up what evaporates”.',
    equations: ['litres a day = (E × 1.2 while the falls run − P) A, not below 0'],
    inputs: [
      { ...EVAPORATION, example: 6 },
      asked('rainMmPerDay', 'P', 'Rain', 'mm/d', [0, 50, 0]),
      AREA,
      FALLS,
      asked('volumeL', 'V', 'Volume', 'L', [100, 1_000_000, 10_000]),
    ],
    symbols: [],
    validity: 'The waterfall’s share is 1.0 to 1.3 in practice. A person adds at most a tenth of the volume in a day.',
    source: 'Water balance (derived); the waterfall is common practice',
    compute: (values) => [
      worked(
        'q',
        'To add',
        topUpLPerDay({
          evaporationMmPerDay: values.number('evaporationMmPerDay'),
          precipitationMmPerDay: values.number('rainMmPerDay'),
          surfaceAreaM2: values.number('surfaceAreaM2'),
          hasWaterfall: hasFalls(values),
        }),
        'L/d',
        0,
      ),
      worked(
        'qmax',
        'At most in a day',
        largestTopUpL({ volumeL: values.number('volumeL'), isAutomatic: false }),
        'L',
        0,
      ),
    ],
  },
  {
    id: 'top-up-solutes',
    field: 'water-loss',
    title: 'What topping up leaves behind',
    usedFor: 'Why top-ups replace no water change.',
    equations: ['C = C0 + Ctap E A t / V'],
    inputs: [
      asked('startMgPerL', 'C0', 'Dissolved at the start', 'mg/L', [0, 2000, 200]),
      asked('tapMgPerL', 'Ctap', 'Dissolved in the tap water', 'mg/L', [0, 2000, 300]),
      { ...EVAPORATION, example: 5 },
      AREA,
      asked('days', 't', 'Days', 'd', [0, 366, 90]),
      asked('volumeL', 'V', 'Volume', 'L', [100, 1_000_000, 10_000]),
    ],
    symbols: [],
    validity: 'Without rain and changes; what does not evaporate stays.',
    source: 'Mass balance (derived)',
    compute: (values) => [
      worked(
        'C',
        'Dissolved after it',
        solutesAfterTopUpMgPerL({
          startMgPerL: values.number('startMgPerL'),
          tapMgPerL: values.number('tapMgPerL'),
          evaporationMmPerDay: values.number('evaporationMmPerDay'),
          surfaceAreaM2: values.number('surfaceAreaM2'),
          volumeL: values.number('volumeL'),
          days: values.number('days'),
        }),
        'mg/L',
        0,
      ),
    ],
  },
];
