import { bandParts } from '../thermal/band-parts.js';
import { seasonWindow } from '../thermal/crossing-dates.js';
import { weatherSpreadOf } from '../thermal/ensemble-noise.js';
import { forecastWater } from '../thermal/forecast-water.js';
import { iceThicknessCm, refugeDepthM, simulatedIceM, stefanCeilingCm, thinIceCm } from '../thermal/ice.js';
import { fadingErrorSdC, OFFSET_SD_C, priorModelError, takeReading } from '../thermal/readings-correction.js';
import { ensembleSeed } from '../thermal/seed.js';
import { dayFromParts } from '../units/civil-day.js';
import { dayAndMonth, MONTH_CHOICES } from './day-and-month.js';
import { exampleClimate, PLACE_INPUT } from './example-places.js';
import type { Formula } from './formula.js';
import { asked, worked } from './stock-inputs.js';
import { LATITUDE } from './weather-inputs.js';

/** The year of the examples; any would do. */
const EXAMPLE_YEAR = 2025;
const COLD = asked('freezingDegreeDaysC', 'AFDD', 'Net cold since the ice formed', '°C d', [0, 3000, 100]);

/** Ice, the ensemble, dates and readings. */
export const HEAT_FORECAST_FORMULAS: readonly Formula[] = [
  {
    id: 'ice-thickness',
    field: 'heat',
    title: 'Ice thickness',
    usedFor: 'Ice shown and used in rules, and the water left under it for fish.',
    equations: ['h = α √AFDD', 'thin, up to 5 cm: h = √[(k / H)² + 2 k AFDD / (ρ L)] − k / H', 'refuge = Dmax − h'],
    inputs: [
      COLD,
      asked('alpha', 'α', 'Growth: 1.4 under snow, 2.7 on windswept ice', 'cm/√(°C d)', [1.4, 2.7, 2]),
      asked('maxDepthM', 'Dmax', 'Deepest point', 'm', [0.2, 5, 1.2]),
    ],
    symbols: [
      { symbol: 'H', meaning: 'Exchange of thin ice with the air', unit: 'W/m²/K', value: '20' },
      { symbol: 'ceiling', meaning: 'Bare ice without snow, Stefan', unit: 'cm' },
    ],
    validity: '0 to 8000 °C d. Never a sign that ice carries anybody.',
    source:
      'Stefan; band of the US Army CRREL note 04-3; thin ice Ashton, published constants. 100 °C d: 20 cm, ceiling 35.2 cm (derived).',
    compute: (values) => {
      const freezingDegreeDaysC = values.number('freezingDegreeDaysC');
      const thicknessCm = iceThicknessCm({ freezingDegreeDaysC, alpha: values.number('alpha') });
      const refugeM = refugeDepthM({ maxDepthM: values.number('maxDepthM'), iceThicknessCm: thicknessCm });
      return [
        worked('h', 'Ice', thicknessCm, 'cm', 1),
        worked('thin', 'Ice by the law of thin ice', thinIceCm({ freezingDegreeDaysC }), 'cm', 1),
        worked('ceiling', 'Bare ice at most', stefanCeilingCm({ freezingDegreeDaysC }), 'cm', 1),
        worked('refuge', 'Water left under the ice', refugeM, 'm', 2),
      ];
    },
  },
  {
    id: 'ice-of-the-simulation',
    field: 'heat',
    title: 'Ice from day to day',
    usedFor: 'When the simulated cover forms and goes, and with it the spring of the forecast.',
    equations: [
      'growing: h + l = √[(h₀ + l)² − α² Ta]',
      'melting: Δh = −H(0) Δt / (ρ L), albedo 0.4',
      'from below: Δh = −q Δt / (ρ L), q from the ground',
    ],
    inputs: [
      asked('iceCm', 'h₀', 'Ice in the morning', 'cm', [0.5, 100, 10]),
      asked('airTemperatureC', 'Ta', 'Air, mean of the day', '°C', [-40, 15, 3]),
      asked('netHeatWPerM2', 'H(0)', 'Net heat of the surface at 0 °C', 'W/m²', [-300, 300, 50]),
      asked('heatFromBelowWPerM2', 'q', 'Heat from the ground', 'W/m²', [0, 30, 0]),
    ],
    symbols: [
      { symbol: 'ρ L', meaning: 'Heat to melt a cubic metre of ice', unit: 'J/m³', value: '917 × 3.34·10⁵' },
      { symbol: 'l', meaning: 'Resistance of the surface as ice', unit: 'm' },
    ],
    validity: 'Days; ice dates are good to five days at best. α = 2 cm as for the ice shown: usual snow is in it.',
    source: 'Stefan; constants from memory. 50 W/m² melt 14.1 mm a day (derived).',
    compute: (values) => {
      const iceM = simulatedIceM(
        values.number('iceCm') / 100,
        values.number('airTemperatureC'),
        values.number('netHeatWPerM2'),
        values.number('heatFromBelowWPerM2'),
      );
      return [worked('h', 'Ice a day later', 100 * iceM, 'cm', 2)];
    },
  },
  {
    id: 'weather-to-come',
    field: 'heat',
    title: 'Weather to come',
    usedFor: 'The forty traces of the forecast, where no years of record are given.',
    equations: ['x(d) = 0.80 x(d−1) + sd √(1 − 0.80²) e', 'air = normal + offset of the month + x'],
    inputs: [
      PLACE_INPUT,
      {
        kind: 'choice',
        name: 'month',
        symbol: 'month',
        meaning: 'Month',
        choices: MONTH_CHOICES,
        example: '1',
      },
    ],
    symbols: [
      { symbol: 'e', meaning: 'Normal deviate, given by pond, trace and calendar day', unit: '' },
      { symbol: 'sd', meaning: 'Spread of the daily anomaly', unit: '°C' },
    ],
    validity: 'Days of one place. The monthly offset adds what years differ by beyond that.',
    source:
      'AR(1); 0.78 to 0.85 by season at De Bilt, spread of months from the station (derived). With years of record each trace lives through them one after another instead.',
    compute: (values) => {
      const spread = weatherSpreadOf(exampleClimate(values.choice('place')));
      const middle = Math.round(30.5 * Number(values.choice('month')) - 15);
      return [
        worked('sd', 'Spread of the daily anomaly', spread.daySdC[middle] as number, '°C'),
        worked('offset', 'Spread of the offset of the month', spread.monthSdC[middle] as number, '°C'),
      ];
    },
  },
  {
    id: 'water-forecast',
    field: 'heat',
    title: 'The water forecast, whole',
    usedFor: 'The curve and band of every pond, and all dates that hang on the water.',
    equations: [
      'forty traces of air → heat balance, ice and ground → plus offset and fading error of the model',
      'p10, p50, p90 over the traces',
    ],
    inputs: [
      PLACE_INPUT,
      asked('meanDepthM', 'D', 'Mean depth', 'm', [0.3, 3, 0.9]),
      asked('shadeShare', 's', 'Share of the sun kept off', '', [0, 0.9, 0.3]),
      asked('windAt2mMPerS', 'u', 'Wind over the water', 'm/s', [0.3, 8, 1.5]),
      {
        kind: 'choice',
        name: 'month',
        symbol: 'month',
        meaning: 'The 15th of',
        choices: MONTH_CHOICES,
        example: '7',
      },
    ],
    symbols: [],
    validity: 'Ponds of 20 m² without a waterfall in this example; 0.05 to 30 m anywhere.',
    source:
      'Everything above and below. Against three lakes with daily air: 0.8 to 1.3 °C; from normals alone about 2 °C.',
    compute: (values) => {
      const climate = exampleClimate(values.choice('place'));
      const day = dayFromParts(EXAMPLE_YEAR, Number(values.choice('month')), 15);
      const forecast = forecastWater({
        climate,
        firstDay: day,
        days: 1,
        seed: ensembleSeed('example', climate.stations[0]?.id ?? ''),
        pond: {
          latitude: climate.latitude,
          elevationM: climate.elevationM,
          surfaceAreaM2: 20,
          meanDepthM: values.number('meanDepthM'),
          shadeShare: values.number('shadeShare'),
          windAt2mMPerS: values.number('windAt2mMPerS'),
          waterfallFlowLPerH: 0,
        },
      });
      const parts = bandParts(forecast, { fromIndex: 0, days: 1 });
      return [
        worked('p10', 'One year in ten is colder', forecast.p10C[0] as number, '°C', 1),
        worked('p50', 'Median', forecast.p50C[0] as number, '°C', 1),
        worked('p90', 'One year in ten is warmer', forecast.p90C[0] as number, '°C', 1),
        worked('weather', 'Share of the weather in the band', parts?.weatherShare ?? 0),
        worked('model', 'Share of the model', parts?.modelShare ?? 0),
      ];
    },
  },
  {
    id: 'crossing-window',
    field: 'heat',
    title: 'When the water crosses a threshold',
    usedFor: 'Every date that waits for warm or cold water.',
    equations: [
      'M(d) = mean of T(d−6) … T(d)',
      'falling: first d in the window with M(d−1) ≥ X and M(d) … M(d+6) < X; rising mirrored',
      'date = median over the traces, band p10 to p90; none where fewer than half cross',
    ],
    inputs: [
      { ...LATITUDE, example: 45 },
      {
        kind: 'choice',
        name: 'direction',
        symbol: 'direction',
        meaning: 'Water is',
        choices: [
          { value: 'falling', label: 'falling' },
          { value: 'rising', label: 'rising' },
        ],
        example: 'falling',
      },
    ],
    symbols: [{ symbol: 'X', meaning: 'Threshold of the rule', unit: '°C' }],
    validity: 'Seven days beyond; in the south half a year shifted. Seen live it fires after 5 days falling, 7 rising.',
    source: 'Common practice; the accuracy figures of the forecast were made with it.',
    compute: (values) => {
      const direction = values.choice('direction') === 'rising' ? 'rising' : 'falling';
      const { from, until } = seasonWindow(direction, values.number('latitude'), EXAMPLE_YEAR);
      return [
        worked('from', 'The run may begin on', dayAndMonth(from, '')),
        worked('until', 'and at the latest on', dayAndMonth(until, '')),
      ];
    },
  },
  {
    id: 'reading-correction',
    field: 'heat',
    title: 'What one reading teaches',
    usedFor: 'Correcting a pond’s forecast by its thermometer, and refusing a reading that cannot be.',
    equations: [
      'S = P(b) + 2 P(b, r) + P(r) + weather + 0.8²',
      'believed where |reading − expected| ≤ 3 √S',
      'b ← b + (P(b) + P(b, r)) / S × surprise; r likewise; r fades by e^(−1/8) a day',
    ],
    inputs: [
      asked('expectedC', 'expected', 'Water the model expects', '°C', [0, 40, 20]),
      asked('readingC', 'reading', 'Water measured', '°C', [-1, 45, 22]),
      asked('offsetSdC', '√P(b)', 'What is unknown of the pond’s exposure', '°C', [
        OFFSET_SD_C.min,
        OFFSET_SD_C.max,
        OFFSET_SD_C.value,
      ]),
      asked('effectiveDepthM', 'd', 'Depth that takes part', 'm', [0.2, 10, 1.45]),
    ],
    symbols: [
      { symbol: 'b', meaning: 'Steady offset of the model on this pond', unit: '°C' },
      { symbol: 'r', meaning: 'Error that fades; 1.1 °C at 1.45 m, less in deep water', unit: '°C' },
    ],
    validity: 'Open water; under ice a reading teaches nothing of summer.',
    source: 'Two-state Kalman filter; spreads derived on four lakes, 0.8 °C of the hand reading common practice.',
    compute: (values) => {
      const fadingSdC = fadingErrorSdC(values.number('effectiveDepthM'));
      const state = priorModelError(values.number('offsetSdC'), fadingSdC);
      const reading = { on: dayFromParts(EXAMPLE_YEAR, 7, 15), waterTemperatureC: values.number('readingC') };
      const { verdict } = takeReading(state, reading, values.number('expectedC'), 0);
      return [
        worked('verdict', 'The reading is', verdict.verdict === 'used' ? 'believed' : 'asked for again'),
        worked('limit', 'Largest surprise believed', verdict.limitC, '°C'),
        worked('b', 'Offset learned', state.offsetC, '°C'),
        worked('r', 'Fading error learned', state.fadingC, '°C'),
      ];
    },
  },
];
