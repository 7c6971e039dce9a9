import { curveIndex, dailyCurve, monthMeanOf } from '../climate/daily-curve.js';
import { degreeDaysOfMeanC, meanOfExtremesC, singleSineDegreeDaysC } from '../climate/degree-days.js';
import { firstFreezeOn, freezeDatesOf, lastFreezeOn } from '../climate/freeze-dates.js';
import { freezingDegreeDaysC } from '../climate/freezing-degree-days.js';
import { leafFallOn, leafNetDates } from '../climate/leaf-fall.js';
import { winterClassFromZone, winterClassOf } from '../climate/winter-class.js';
import { dayFromParts } from '../units/civil-day.js';
import { dayAndMonth, MONTH_CHOICES } from './day-and-month.js';
import { exampleClimate, exampleStation, PLACE_INPUT } from './example-places.js';
import type { Formula, NumberInput } from './formula.js';

/** Any year without leap day: dates of the climate are the same every year. */
const YEAR = 2025;

const PROBABILITY: NumberInput = {
  kind: 'number',
  name: 'probability',
  symbol: 'p',
  meaning: 'Probability; 0.5 is one year in two',
  unit: '',
  min: 0.01,
  max: 0.99,
  example: 0.5,
};
const DAY_MEAN: NumberInput = {
  kind: 'number',
  name: 'day1C',
  symbol: 'T1',
  meaning: 'Mean air of the first day',
  unit: '°C',
  min: -60,
  max: 40,
  example: -3,
};

/** Dates and classes of the year that come from the climate. */
export const WEATHER_SEASONS_FORMULAS: readonly Formula[] = [
  {
    id: 'daily-curve',
    field: 'weather',
    title: 'A year of days from twelve months',
    usedFor: 'The normal of every day in the forecast, in freeze dates and in the leaf net.',
    equations: [
      'y(x) = b0 + Σ [ak cos(k w x) + ck sin(k w x)], k = 1 to 5, w = 2π / 365, x = day − 0.5',
      'b0, ak, ck by least squares, so that the mean over each month is the month’s own figure',
    ],
    inputs: [
      PLACE_INPUT,
      { kind: 'choice', name: 'month', symbol: 'month', meaning: 'Month', choices: MONTH_CHOICES, example: '7' },
      {
        kind: 'number',
        name: 'dayOfMonth',
        symbol: 'day',
        meaning: 'Day of the month',
        unit: '',
        min: 1,
        max: 28,
        example: 15,
      },
    ],
    symbols: [],
    validity: 'Any twelve finite figures. 29 February lies midway between its neighbours.',
    source:
      'Derived. Against published daily normals of New York it is 0.10 °C off; straight lines between mid-months 0.35.',
    compute: (values) => {
      const curve = dailyCurve(exampleStation(values.choice('place')).meanC);
      const month = Number(values.choice('month'));
      return [
        {
          symbol: 'y',
          meaning: 'Normal of the day',
          unit: '°C',
          value: curve[curveIndex(dayFromParts(YEAR, month, values.number('dayOfMonth')))] as number,
          decimals: 2,
        },
        {
          symbol: 'mean',
          meaning: 'Mean of the days of its month',
          unit: '°C',
          value: monthMeanOf(curve, month),
          decimals: 2,
        },
      ];
    },
  },
  {
    id: 'freeze-dates',
    field: 'weather',
    title: 'Last and first freeze',
    usedFor: 'Tasks that go by the first or last frost, and the leaf net.',
    equations: [
      'z(d) = 0.65 z(d − 1) + √(1 − 0.65²) ε, ε standard normal',
      'Tmin(d) = m(d) + s(d) z(d)',
      'last freeze: last d before 16 July with Tmin ≤ limit; first freeze: first d from 1 August on (half a year later in the south)',
      'dates at probability p over 2000 such years',
    ],
    inputs: [
      PLACE_INPUT,
      PROBABILITY,
      {
        kind: 'number',
        name: 'thresholdC',
        symbol: 'limit',
        meaning: 'What counts as a freeze, 2 m above the ground',
        unit: '°C',
        min: -10,
        max: 5,
        example: 0,
      },
    ],
    symbols: [
      { symbol: 'm', meaning: 'Normal daily minimum, from the months', unit: '°C' },
      { symbol: 's', meaning: 'Spread of daily minima: within months and between years together', unit: '°C' },
    ],
    validity:
      'Years without a freeze stay in the count: where fewer years than p have one, there is no date and none is invented.',
    source:
      'Derived. Medians of 80 US stations (NOAA normals 1991-2020) are met to 6 days in spring and 4 in autumn on average; those of Albany at 10, 50 and 90 % to 6 days.',
    caution: 'On clear nights the ground is 2 to 3 °C colder than the air at 2 m.',
    compute: (values) => {
      const climate = exampleClimate(values.choice('place'));
      const season = { year: YEAR, probability: values.number('probability') };
      const dates = freezeDatesOf(climate, { thresholdC: values.number('thresholdC') });
      return [
        {
          symbol: 'last',
          meaning: 'A freeze still comes after this day with probability p',
          unit: '',
          value: dayAndMonth(lastFreezeOn(dates, season), 'none'),
          decimals: 0,
        },
        {
          symbol: 'first',
          meaning: 'A freeze has come by this day with probability p',
          unit: '',
          value: dayAndMonth(firstFreezeOn(dates, season), 'none'),
          decimals: 0,
        },
        {
          symbol: 'without',
          meaning: 'Share of years without a freeze in autumn',
          unit: '',
          value: dates.withoutAutumnFreeze,
          decimals: 2,
        },
      ];
    },
  },
  {
    id: 'leaf-net',
    field: 'weather',
    title: 'Leaf net on and off',
    usedFor: 'The care tasks “Put the leaf net on” and “Take the leaf net off”.',
    equations: [
      'on = earlier of (median first freeze − 21 d) and (10-day mean air below 12 °C), at most 21 d before the latter',
      'off = on + 56 d, or when somebody reports the trees bare',
      'at probability p: on, moved by how far the 12 °C day moves from year to year',
    ],
    inputs: [PLACE_INPUT, PROBABILITY],
    symbols: [],
    validity:
      'Either date may be 14 days off. No net in tropical climates, nor where the coldest month is above 15 °C, nor where the autumn never cools.',
    source:
      'Common practice; no published table of leaf-net dates was found. Fitted leaf-fall models do no better than a site’s average date (Meier, Bigler & Chuine 2025, Geosci. Model Dev. 18, 6963).',
    caution:
      'Species, drought and storms move leaf fall more than the air does. A report from the garden goes before the rule.',
    compute: (values) => {
      const climate = exampleClimate(values.choice('place'));
      const net = leafNetDates(climate, { year: YEAR });
      const begun = leafFallOn(climate, { year: YEAR, probability: values.number('probability') });
      return [
        {
          symbol: 'begun',
          meaning: 'Leaves have begun to fall by',
          unit: '',
          value: dayAndMonth(begun, 'no net'),
          decimals: 0,
        },
        {
          symbol: 'on',
          meaning: 'Net on',
          unit: '',
          value: dayAndMonth(net.none === null ? net.netOn : null, 'no net'),
          decimals: 0,
        },
        {
          symbol: 'off',
          meaning: 'Net off',
          unit: '',
          value: dayAndMonth(net.none === null ? net.netOff : null, 'no net'),
          decimals: 0,
        },
      ];
    },
  },
  {
    id: 'freezing-degree-days',
    field: 'weather',
    title: 'Freezing degree-days',
    usedFor: 'The cold of a winter: its class, its ice, and how deep the fish must be able to go.',
    equations: ['S(d) = max(0, S(d − 1) − T(d))', 'F = largest S of the season'],
    inputs: [
      DAY_MEAN,
      { ...DAY_MEAN, name: 'day2C', symbol: 'T2', meaning: 'Second day', example: -2 },
      { ...DAY_MEAN, name: 'day3C', symbol: 'T3', meaning: 'Third day', example: 4 },
      { ...DAY_MEAN, name: 'day4C', symbol: 'T4', meaning: 'Fourth day', example: -1 },
      { ...DAY_MEAN, name: 'day5C', symbol: 'T5', meaning: 'Fifth day', example: -7 },
    ],
    symbols: [],
    validity:
      'Daily means of whole winters, never monthly normals: De Bilt has 35 °C·d a winter in daily data and none in its normals.',
    source: 'Freezing index of the American Meteorological Society’s Glossary of Meteorology.',
    compute: (values) => [
      {
        symbol: 'F',
        meaning: 'Freezing degree-days of the five days',
        unit: '°C·d',
        value: freezingDegreeDaysC(['day1C', 'day2C', 'day3C', 'day4C', 'day5C'].map((name) => values.number(name))),
        decimals: 1,
      },
    ],
  },
  {
    id: 'winter-class',
    field: 'weather',
    title: 'Winter class W0 to W3',
    usedFor: 'Which winter tasks a pond has: none, a throttled fall, a shutdown, or a drained pump and a deep refuge.',
    equations: [
      'W0 where the water of the coldest month is at least 10 °C',
      'W1 where F < 20 °C·d; W3 where F > 250 °C·d or ice > 40 % of the deepest point; else W2',
    ],
    inputs: [
      {
        kind: 'number',
        name: 'freezingDegreeDaysC',
        symbol: 'F',
        meaning: 'Freezing degree-days, mean of at least ten winters',
        unit: '°C·d',
        min: 0,
        max: 5000,
        example: 180,
      },
      {
        kind: 'number',
        name: 'coldestMonthWaterC',
        symbol: 'Tw',
        meaning: 'Mean water of the coldest month',
        unit: '°C',
        min: -2,
        max: 35,
        example: 2,
      },
      {
        kind: 'number',
        name: 'maxDepthM',
        symbol: 'Dmax',
        meaning: 'Deepest point',
        unit: 'm',
        min: 0.1,
        max: 10,
        example: 1.2,
      },
    ],
    symbols: [{ symbol: 'ice', meaning: '2.0 √F in centimetres; see the ice of the water forecast', unit: 'cm' }],
    validity:
      'F from daily air or from 40 simulated winters. With nothing but a hardiness zone: to 6 W3, 7 and 8 W2, 9 W1.',
    source: 'Cut-offs are common practice.',
    compute: (values) => {
      const coldestMonthWaterC = values.number('coldestMonthWaterC');
      return [
        {
          symbol: 'class',
          meaning: 'Winter class',
          unit: '',
          value: winterClassOf({
            freezingDegreeDaysC: values.number('freezingDegreeDaysC'),
            coldestMonthWaterC,
            maxDepthM: values.number('maxDepthM'),
          }),
          decimals: 0,
        },
        {
          symbol: 'by zone 7b',
          meaning: 'What a hardiness zone alone would say',
          unit: '',
          value: winterClassFromZone({ hardinessZone: '7b', coldestMonthWaterC }),
          decimals: 0,
        },
      ];
    },
  },
  {
    id: 'degree-days',
    field: 'weather',
    title: 'Degree-days above a base',
    usedFor: 'Nothing printed yet; here for comparing a season with another.',
    equations: [
      'by the mean: max(0, m − B), m = (Tmax + Tmin) / 2',
      'by a sine, where Tmin < B < Tmax: [(m − B)(π/2 − θ) + w cos θ] / π, w = (Tmax − Tmin) / 2, θ = arcsin[(B − m) / w]',
    ],
    inputs: [
      { ...DAY_MEAN, name: 'maxC', symbol: 'Tmax', meaning: 'Highest of the day', max: 55, example: 20 },
      { ...DAY_MEAN, name: 'minC', symbol: 'Tmin', meaning: 'Lowest of the day', max: 55, example: 6 },
      { ...DAY_MEAN, name: 'baseC', symbol: 'B', meaning: 'Base', min: -10, max: 30, example: 10 },
    ],
    symbols: [],
    validity: 'One day at a time; the lowest must not lie above the highest.',
    source: 'Baskerville & Emin (1969), Ecology 50, 514-517; from memory.',
    compute: (values) => {
      const day = { maxC: values.number('maxC'), minC: values.number('minC') };
      const baseC = values.number('baseC');
      return [
        {
          symbol: 'by sine',
          meaning: 'With the warm hours counted',
          unit: '°C·d',
          value: singleSineDegreeDaysC({ ...day, baseC }),
          decimals: 2,
        },
        {
          symbol: 'by mean',
          meaning: 'By the mean alone',
          unit: '°C·d',
          value: degreeDaysOfMeanC({ meanC: meanOfExtremesC(day), baseC }),
          decimals: 2,
        },
      ];
    },
  },
];
