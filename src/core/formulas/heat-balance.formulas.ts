import { effectiveDepthM } from '../thermal/effective-depth.js';
import { GROUND_CONDUCTIVITY_W_PER_M_K, groundAtMidsummer, groundOf } from '../thermal/ground-heat.js';
import { equilibriumOf, smallPondFactor, timeScaleDays, waterAfter, windFunction } from '../thermal/heat-balance.js';
import { shadeShareFrom, windOverPond } from '../thermal/shade.js';
import { WATERFALL_APPROACH, waterfallExchangeWPerM2K, wetBulbC } from '../thermal/waterfall.js';
import type { Formula, FormulaValues } from './formula.js';
import { asked, worked } from './stock-inputs.js';
import { LATITUDE } from './weather-inputs.js';

const HANDBOOK = 'Formulas from memory; check rows derived';
const AREA = asked('surfaceAreaM2', 'A', 'Surface of the water', 'm²', [0.5, 1_000_000, 20]);
const DEPTH = asked('meanDepthM', 'D', 'Mean depth, volume over area', 'm', [0.1, 30, 0.9]);
const AIR = asked('airTemperatureC', 'Ta', 'Air temperature, mean of the day', '°C', [-40, 45, 20]);
const WEATHER = [
  AIR,
  asked('vapourPressureHPa', 'ea', 'Vapour pressure of the air', 'hPa', [0.1, 40, 15]),
  asked('windAt2mMPerS', 'u', 'Wind over the water', 'm/s', [0, 12, 2]),
  asked('solarWPerM2', 'Rs', 'Sun at the ground, mean of the day', 'W/m²', [0, 400, 250]),
  asked('extraterrestrialWPerM2', 'Ra', 'Sun above the atmosphere', 'W/m²', [50, 550, 485.09]),
  asked('shadeShare', 's', 'Share of the sun kept off', '', [0, 0.9, 0]),
  asked('windFunctionFactor', 'F', 'Factor of small water', '', [1, 1.5, 1]),
];

function balanceOf(values: FormulaValues) {
  return equilibriumOf({
    airTemperatureC: values.number('airTemperatureC'),
    vapourPressureHPa: values.number('vapourPressureHPa'),
    windAt2mMPerS: values.number('windAt2mMPerS'),
    solarWPerM2: values.number('solarWPerM2'),
    extraterrestrialWPerM2: values.number('extraterrestrialWPerM2'),
    shadeShare: values.number('shadeShare'),
    windFunctionFactor: values.number('windFunctionFactor'),
  });
}

/** What warms and cools the water of a day. */
export const HEAT_BALANCE_FORMULAS: readonly Formula[] = [
  {
    id: 'heat-balance',
    field: 'heat',
    title: 'Heat balance of the water',
    usedFor: 'Every water temperature the product forecasts: where the water is drawn to and how fast.',
    equations: [
      'H(T) = (1 − a)(1 − s) Rs + εw εa σ TaK⁴ − εw σ TK⁴ − f (ew − ea) − 0.62 f (T − Ta)',
      'f = F (6.9 + 0.345 u²)',
      'εa = min[1, 1.24 (ea / TaK)^(1/7) (1 + 0.22 C²)], C² = min[1, (1 − r) / 0.65], r = Rs / (0.75 Ra)',
      'H(Te) = 0;  K = 4 εw σ TeK³ + f (dew/dT + 0.62);  τ = ρc d / K',
    ],
    inputs: WEATHER,
    symbols: [
      { symbol: 'a', meaning: 'Albedo of water', unit: '', value: '0.07' },
      { symbol: 'εw', meaning: 'Emissivity of water', unit: '', value: '0.97' },
      { symbol: 'σ', meaning: 'Stefan-Boltzmann constant', unit: 'W/m²/K⁴', value: '5.670374·10⁻⁸' },
      { symbol: 'ew', meaning: 'Saturation vapour pressure at the water', unit: 'hPa' },
      { symbol: 'ρc', meaning: 'Heat capacity of water', unit: 'J/m³/K', value: '4.186·10⁶' },
    ],
    validity: 'Daily means, −60 to 55 °C of air. No term for springs; ice, falls, rain and ground follow below.',
    source: `Edinger, Duttweiler & Geyer (1968); wind function Brady, Graves & Geyer (1969); sky Brutsaert (1975), cloud after Kasten & Czeplak (1980). ${HANDBOOK} (the example gives 24.940 °C, 26.535 W/m²/K, 1.83 d).`,
    caution: 'Proved on small lakes. No year-round record of a garden pond was found.',
    compute: (values) => {
      const { equilibriumTemperatureC, heatExchangeWPerM2K } = balanceOf(values);
      return [
        worked('Te', 'Temperature the water is drawn to', equilibriumTemperatureC, '°C', 2),
        worked('K', 'Heat exchange there', heatExchangeWPerM2K, 'W/m²/K', 2),
        worked('τ', 'Time scale of one metre of water', timeScaleDays({ depthM: 1, heatExchangeWPerM2K }), 'd', 2),
      ];
    },
  },
  {
    id: 'water-step',
    field: 'heat',
    title: 'Water one day later',
    usedFor: 'The daily step of every forecast.',
    equations: ['T(t + Δt) = Te + (T − Te) exp[−K Δt / (ρc d)], K at (T + Te) / 2'],
    inputs: [
      asked('waterTemperatureC', 'T', 'Water now', '°C', [0, 40, 15]),
      asked('effectiveDepthM', 'd', 'Depth of water that takes part', 'm', [0.1, 30, 0.9]),
      ...WEATHER,
    ],
    symbols: [],
    validity: 'Exact for weather that stays; stable for any depth and any step.',
    source: `Edinger, Duttweiler & Geyer (1968). ${HANDBOOK} (with K at Te instead of the midpoint the example gives 19.531 °C).`,
    compute: (values) => {
      const { equilibriumTemperatureC, forcing } = balanceOf(values);
      const afterC = waterAfter({
        waterTemperatureC: values.number('waterTemperatureC'),
        effectiveDepthM: values.number('effectiveDepthM'),
        equilibriumTemperatureC,
        forcing,
      });
      return [worked('T(+1 d)', 'Water one day later', afterC, '°C', 2)];
    },
  },
  {
    id: 'small-pond-exchange',
    field: 'heat',
    title: 'Wind function, and small water',
    usedFor: 'What wind and size add to the losses of heat and vapour in the forecast.',
    equations: ['f = F (6.9 + 0.345 u²)', 'F = max[1, (A / 10,000)^−0.05]'],
    inputs: [AREA, asked('windAt2mMPerS', 'u', 'Wind over the water', 'm/s', [0, 12, 1.5])],
    symbols: [],
    validity: 'From 0.2 m²; 1 from a hectare up. Not proved on garden ponds.',
    source:
      'Brady, Graves & Geyer (1969); size after Harbeck (1962), quoted by McMahon et al. (2013); from memory. Check value derived: 20 m² gives 1.36.',
    compute: (values) => [
      worked('F', 'Factor of small water', smallPondFactor({ surfaceAreaM2: values.number('surfaceAreaM2') })),
      worked('f / F', 'Wind function in the open', windFunction(values.number('windAt2mMPerS')), 'W/m²/hPa'),
    ],
  },
  {
    id: 'effective-depth',
    field: 'heat',
    title: 'Depth of water that takes part',
    usedFor: 'How slowly a pond follows the weather.',
    equations: ['d = D + 0.15 m', 'from 5,000 m² up: at most 6.95 L^0.185, L = 2 √(A / π) in km'],
    inputs: [DEPTH, AREA],
    symbols: [{ symbol: 'L', meaning: 'Length of the water, as if it were round', unit: 'km' }],
    validity: '0.05 to 30 m. Pumps keep small water mixed; a lake warms above its thermocline only.',
    source: 'The mud that follows within hours: derived. Thermocline: Hanna (1990), from memory.',
    compute: (values) => [
      worked(
        'd',
        'Depth that takes part',
        effectiveDepthM({ meanDepthM: values.number('meanDepthM'), surfaceAreaM2: values.number('surfaceAreaM2') }),
        'm',
      ),
    ],
  },
  {
    id: 'ground-heat-flow',
    field: 'heat',
    title: 'Heat held by mud and ground',
    usedFor: 'The lag of spring and autumn, and what melts the ice from below.',
    equations: [
      'q = (k / 0.325 m)(Tu − T)',
      'ρcg 0.5 m dTu/dt = (k / 0.325 m)(T − Tu) + (k / 1 m)(Tl − Tu)',
      'ρcg 1.5 m dTl/dt = (k / 1 m)(Tu − Tl)',
      'at midsummer Tu = Ta̅ + 0.88 (T − Ta̅), Tl = Ta̅ + 0.5 (T − Ta̅)',
    ],
    inputs: [
      asked('conductivityWPerMK', 'k', 'Conductivity of the ground', 'W/m/K', [
        GROUND_CONDUCTIVITY_W_PER_M_K.min,
        GROUND_CONDUCTIVITY_W_PER_M_K.max,
        GROUND_CONDUCTIVITY_W_PER_M_K.value,
      ]),
      asked('waterC', 'T', 'Water at midsummer', '°C', [5, 40, 24]),
      asked('yearMeanC', 'Ta̅', 'Mean air of the year', '°C', [-15, 32, 10]),
    ],
    symbols: [
      { symbol: 'Tu, Tl', meaning: 'Upper half metre and the metre and a half below it', unit: '°C' },
      { symbol: 'ρcg', meaning: 'Heat capacity of wet ground', unit: 'J/m³/K', value: '3.0·10⁶' },
    ],
    validity: 'Water in the ground or on it, no springs. k = 0 is an insulated tank.',
    source:
      'Conduction of heat; constants from memory. As good as 1.5 times the depth on two shallow lakes, better on a deep one (derived).',
    compute: (values) => {
      const ground = groundOf(values.number('conductivityWPerMK'));
      const start = groundAtMidsummer(values.number('waterC'), values.number('yearMeanC'));
      return [
        worked('k / 0.325 m', 'Exchange between water and ground', ground.exchangeWPerM2K, 'W/m²/K'),
        worked('Tu', 'Upper layer at midsummer', start.upperC, '°C', 1),
        worked('Tl', 'Lower layer at midsummer', start.lowerC, '°C', 1),
      ];
    },
  },
  {
    id: 'shade-from-sun',
    field: 'heat',
    title: 'Shade from hours of direct sun',
    usedFor: 'The share of the sun that reaches a pond, before readings correct it.',
    equations: ['s = 1 − hours / N, within 0.1 and 0.9'],
    inputs: [
      asked('directSunHours', 'hours', 'Direct sun on the pond at midsummer', 'h', [0, 24, 8]),
      { ...LATITUDE, example: 45 },
    ],
    symbols: [{ symbol: 'N', meaning: 'Length of the longest day (FAO-56 eq 34)', unit: 'h' }],
    validity: 'More hours than the day has count as all of it.',
    source: 'Derived; not proved on garden ponds.',
    compute: (values) => [
      worked(
        's',
        'Share of the sun kept off',
        shadeShareFrom({ directSunHours: values.number('directSunHours'), latitude: values.number('latitude') }),
      ),
    ],
  },
  {
    id: 'wind-over-pond',
    field: 'heat',
    title: 'Wind over the pond',
    usedFor: 'The losses of the heat balance and evaporation, before readings correct it.',
    equations: ['u = 0.748 × u10 × shelter'],
    inputs: [
      asked('openWindMPerS', 'u10', 'Wind at 10 m in the open', 'm/s', [0, 20, 4]),
      {
        kind: 'choice',
        name: 'shelter',
        symbol: 'shelter',
        meaning: 'What stands around the pond',
        choices: [
          { value: 'open', label: 'Open field (1)' },
          { value: 'suburban', label: 'Suburban garden (0.5)' },
          { value: 'walled', label: 'Walled or wooded (0.3)' },
        ],
        example: 'suburban',
      },
    ],
    symbols: [],
    validity: 'Without a wind station 4, 1.5 and 0.8 m/s stand for the three.',
    source: 'Height: FAO-56 eq 47 (0.748 for 10 m). Shelter: common practice.',
    compute: (values) => [
      worked(
        'u',
        'Wind over the water',
        windOverPond({
          shelter: values.choice('shelter') as Parameters<typeof windOverPond>[0]['shelter'],
          openWindMPerS: values.number('openWindMPerS'),
        }),
        'm/s',
      ),
    ],
  },
  {
    id: 'waterfall-cooling',
    field: 'heat',
    title: 'Cooling by a waterfall',
    usedFor: 'Ponds with a waterfall, above 5 °C.',
    equations: ['H = (ρc Q η / A)(Twb − T)', 'Twb = T atan[0.151977 √(RH + 8.313659)] + … (Stull)'],
    inputs: [
      asked('waterfallFlowLPerH', 'Q', 'Flow over the falls', 'L/h', [0, 200_000, 6000]),
      asked('waterfallApproach', 'η', 'Share of the way to the wet bulb', '', [
        WATERFALL_APPROACH.min,
        WATERFALL_APPROACH.max,
        WATERFALL_APPROACH.value,
      ]),
      AREA,
      { ...AIR, min: -20 },
      asked('relativeHumidityPct', 'RH', 'Relative humidity', '%', [5, 99, 50]),
    ],
    symbols: [{ symbol: 'Twb', meaning: 'Wet-bulb temperature', unit: '°C' }],
    validity: 'Falls of 0.3 to 1 m; off below 5 °C of water. Rain counts the same way, with its own amount.',
    source:
      'Wet bulb: Stull (2011), from memory; 20 °C and 50 % give 13.7 °C. The share is common practice, no measurement was found.',
    compute: (values) => [
      worked(
        'ρc Q η / A',
        'Exchange of the falls',
        waterfallExchangeWPerM2K({
          waterfallFlowLPerH: values.number('waterfallFlowLPerH'),
          waterfallApproach: values.number('waterfallApproach'),
          surfaceAreaM2: values.number('surfaceAreaM2'),
        }),
        'W/m²/K',
        1,
      ),
      worked(
        'Twb',
        'Wet bulb',
        wetBulbC({
          airTemperatureC: values.number('airTemperatureC'),
          relativeHumidityPct: values.number('relativeHumidityPct'),
        }),
        '°C',
        1,
      ),
    ],
  },
];
