import {
  airPressureKPa,
  meanSaturationKPa,
  psychrometricKPaPerC,
  saturationVapourPressureKPa,
  vapourPressureSlopeKPaPerC,
} from '../climate/fao56.js';
import {
  dewPointFromMinimumC,
  vapourPressureDeficitKPa,
  vapourPressureFromDewPointKPa,
  vapourPressureFromExtremesKPa,
} from '../climate/humidity.js';
import type { Formula } from './formula.js';
import { ELEVATION, FAO_56, MAX, MIN } from './weather-inputs.js';

/** Pressure and humidity of the air after FAO-56. */
export const WEATHER_AIR_FORMULAS: readonly Formula[] = [
  {
    id: 'air-pressure',
    field: 'weather',
    title: 'Air pressure and psychrometric constant',
    usedFor: 'Evaporation of a pond at its height above the sea.',
    equations: ['P = 101.3 [(293 − 0.0065 z) / 293]^5.26', 'γ = 0.000665 P'],
    inputs: [ELEVATION],
    symbols: [],
    validity: 'From 500 m below the sea to 9,000 m above it, mean weather. Outside it is refused.',
    source: `${FAO_56}, eq 7 and 8; the example is example 2 (81.8 kPa, 0.054).`,
    compute: (values) => {
      const pressureKPa = airPressureKPa({ elevationM: values.number('elevationM') });
      return [
        { symbol: 'P', meaning: 'Mean air pressure', unit: 'kPa', value: pressureKPa, decimals: 1 },
        {
          symbol: 'γ',
          meaning: 'Psychrometric constant',
          unit: 'kPa/°C',
          value: psychrometricKPaPerC({ pressureKPa }),
          decimals: 4,
        },
      ];
    },
  },
  {
    id: 'saturation-vapour-pressure',
    field: 'weather',
    title: 'Vapour the air can hold',
    usedFor: 'Evaporation, the humidity of a site, and what the air gives back to the water in the heat balance.',
    equations: ['e°(T) = 0.6108 exp[17.27 T / (T + 237.3)]', 'Δ = 4098 e°(T) / (T + 237.3)²'],
    inputs: [
      { ...MAX, name: 'temperatureC', symbol: 'T', meaning: 'Air temperature', min: -90, max: 60, example: 24.5 },
    ],
    symbols: [],
    validity: 'Over water, −90 to 60 °C. Outside it is refused.',
    source: `${FAO_56}, eq 11 and 13; the example is from example 3 (3.075 kPa).`,
    compute: (values) => {
      const temperatureC = values.number('temperatureC');
      return [
        {
          symbol: 'e°',
          meaning: 'Saturation vapour pressure',
          unit: 'kPa',
          value: saturationVapourPressureKPa({ temperatureC }),
          decimals: 3,
        },
        {
          symbol: 'Δ',
          meaning: 'Slope of the saturation curve',
          unit: 'kPa/°C',
          value: vapourPressureSlopeKPaPerC({ temperatureC }),
          decimals: 4,
        },
      ];
    },
  },
  {
    id: 'vapour-pressure-from-humidity',
    field: 'weather',
    title: 'Vapour in the air, from relative humidity',
    usedFor: 'Nothing printed yet; for whoever has a day’s extremes of humidity to compare with.',
    equations: [
      'ea = [e°(Tmin) RHmax + e°(Tmax) RHmin] / 200',
      'es = [e°(Tmax) + e°(Tmin)] / 2',
      'deficit = es − ea, never below 0',
    ],
    inputs: [
      MAX,
      MIN,
      {
        kind: 'number',
        name: 'humidityMaxPct',
        symbol: 'RHmax',
        meaning: 'Highest relative humidity of the day',
        unit: '%',
        min: 0,
        max: 100,
        example: 82,
      },
      {
        kind: 'number',
        name: 'humidityMinPct',
        symbol: 'RHmin',
        meaning: 'Lowest relative humidity of the day',
        unit: '%',
        min: 0,
        max: 100,
        example: 54,
      },
    ],
    symbols: [{ symbol: 'e°', meaning: 'Saturation vapour pressure, see above', unit: 'kPa' }],
    validity: 'Humidity 0 to 100 %, temperatures −90 to 60 °C. Outside it is refused.',
    source: `${FAO_56}, eq 12 and 17; the example is examples 5 and 6 (1.70, 2.616 and 0.91 kPa).`,
    compute: (values) => {
      const day = { maxC: values.number('maxC'), minC: values.number('minC') };
      const vapourPressureKPa = vapourPressureFromExtremesKPa({
        ...day,
        humidityMaxPct: values.number('humidityMaxPct'),
        humidityMinPct: values.number('humidityMinPct'),
      });
      return [
        { symbol: 'ea', meaning: 'Vapour pressure of the air', unit: 'kPa', value: vapourPressureKPa, decimals: 2 },
        {
          symbol: 'es',
          meaning: 'Mean saturation of the day',
          unit: 'kPa',
          value: meanSaturationKPa(day),
          decimals: 3,
        },
        {
          symbol: 'deficit',
          meaning: 'What the air could still take up',
          unit: 'kPa',
          value: vapourPressureDeficitKPa({ ...day, vapourPressureKPa }),
          decimals: 2,
        },
      ];
    },
  },
  {
    id: 'vapour-pressure-from-dew-point',
    field: 'weather',
    title: 'Vapour in the air, from the dew point',
    usedFor: 'Nothing printed yet; for days of which nothing but the lowest temperature is known.',
    equations: ['Tdew = Tmin, in arid places Tmin − 2', 'ea = e°(Tdew)'],
    inputs: [
      { ...MIN, example: 14.8 },
      {
        kind: 'choice',
        name: 'arid',
        symbol: 'place',
        meaning: 'Kind of place',
        choices: [
          { value: 'no', label: 'Not arid' },
          { value: 'yes', label: 'Arid' },
        ],
        example: 'no',
      },
    ],
    symbols: [{ symbol: 'e°', meaning: 'Saturation vapour pressure, see above', unit: 'kPa' }],
    validity: 'Nights that cool to the dew point; dry winds and cities stay above it.',
    source: `${FAO_56}, eq 14 and 48.`,
    compute: (values) => {
      const dewPointC = dewPointFromMinimumC({ minC: values.number('minC'), isArid: values.choice('arid') === 'yes' });
      return [
        { symbol: 'Tdew', meaning: 'Dew point', unit: '°C', value: dewPointC, decimals: 1 },
        {
          symbol: 'ea',
          meaning: 'Vapour pressure of the air',
          unit: 'kPa',
          value: vapourPressureFromDewPointKPa({ dewPointC }),
          decimals: 3,
        },
      ];
    },
  },
];
