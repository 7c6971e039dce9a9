import { greatCircleKm } from '../climate/great-circle.js';
import { estimateExtremeMinC, hardinessZoneMinC, hardinessZoneOf } from '../climate/hardiness.js';
import { koeppenClass, koeppenFigures } from '../climate/koeppen.js';
import { movedToElevationC, penalisedDistanceKm } from '../climate/site-climate.js';
import type { TwelveMonths } from '../climate/station.js';
import { sunShareFromKoeppen, sunShareFromSunshine } from '../climate/sun-share.js';
import { ofMonth, twelveMonths } from '../climate/twelve-months.js';
import { MONTH_CHOICES } from './day-and-month.js';
import { exampleStation, PLACE_INPUT } from './example-places.js';
import type { ChoiceInput, Formula, NumberInput } from './formula.js';

const LATITUDE: NumberInput = {
  kind: 'number',
  name: 'latitude',
  symbol: 'φ1',
  meaning: 'Latitude of the pond, north positive',
  unit: '°',
  min: -90,
  max: 90,
  example: 39.74,
};
const LONGITUDE: NumberInput = {
  ...LATITUDE,
  name: 'longitude',
  symbol: 'λ1',
  meaning: 'Longitude of the pond, east positive',
  min: -180,
  max: 180,
  example: -75.55,
};
const MONTH: ChoiceInput = {
  kind: 'choice',
  name: 'month',
  symbol: 'month',
  meaning: 'Month',
  choices: MONTH_CHOICES,
  example: '7',
};
/** Classes whose share of sun is a rule of its own; all others have 0.50. */
const SUN_CLASSES = ['BWh', 'BSk', 'Csa', 'Cfa', 'Cfb', 'Cfc', 'Dfa', 'Dfb'] as const;

/** What the product says of a place: its station, its class, its zone and its sun. */
export const WEATHER_PLACE_FORMULAS: readonly Formula[] = [
  {
    id: 'nearest-station',
    field: 'weather',
    title: 'Which station speaks for a pond',
    usedFor:
      'The climate of every pond: the nearest three stations within 250 km are blended, else the nearest is taken.',
    equations: [
      'D = 2 R arcsin √[sin²((φ2 − φ1) / 2) + cos φ1 cos φ2 sin²((λ2 − λ1) / 2)]',
      'D′ = D + 0.3 |Δz|',
      'T = Tstation − 0.0065 Δz, minima − 0.0055 Δz',
      'weights 1 / D′², summing to 1',
    ],
    inputs: [
      LATITUDE,
      LONGITUDE,
      { ...LATITUDE, name: 'stationLatitude', symbol: 'φ2', meaning: 'Latitude of the station', example: 39.87 },
      { ...LONGITUDE, name: 'stationLongitude', symbol: 'λ2', meaning: 'Longitude of the station', example: -75.25 },
      {
        kind: 'number',
        name: 'elevationDifferenceM',
        symbol: 'Δz',
        meaning: 'How much higher the pond lies than the station',
        unit: 'm',
        min: -3000,
        max: 3000,
        example: 20,
      },
      {
        kind: 'number',
        name: 'temperatureC',
        symbol: 'Tstation',
        meaning: 'Monthly mean of the station',
        unit: '°C',
        min: -60,
        max: 45,
        example: 26.4,
      },
    ],
    symbols: [{ symbol: 'R', meaning: 'Mean radius of the earth (IUGG)', unit: 'km', value: '6371.0088' }],
    validity:
      'Anywhere, across the date line too. Beyond 150 km, or more than 500 m higher or lower, the product warns and readings count for more.',
    source: 'Great circle by the haversine formula; penalty of height, lapse rates and weights are common practice.',
    caution: 'Cold-air hollows, lakes and city walls are not in any station’s figures.',
    compute: (values) => {
      const elevationDifferenceM = values.number('elevationDifferenceM');
      const distanceKm = greatCircleKm(
        { latitude: values.number('latitude'), longitude: values.number('longitude') },
        { latitude: values.number('stationLatitude'), longitude: values.number('stationLongitude') },
      );
      return [
        { symbol: 'D', meaning: 'Distance', unit: 'km', value: distanceKm, decimals: 1 },
        {
          symbol: 'D′',
          meaning: 'Distance with the height counted in',
          unit: 'km',
          value: penalisedDistanceKm({ distanceKm, elevationDifferenceM }),
          decimals: 1,
        },
        {
          symbol: 'T',
          meaning: 'The mean at the height of the pond',
          unit: '°C',
          value: movedToElevationC({ temperatureC: values.number('temperatureC'), elevationDifferenceM, of: 'mean' }),
          decimals: 2,
        },
      ];
    },
  },
  {
    id: 'koeppen-class',
    field: 'weather',
    title: 'Climate class after Koeppen and Geiger',
    usedFor:
      'The class shown with a pond, the share of sun where no sunshine is counted, and the leaf net of the tropics.',
    equations: [
      'E where the warmest month is below 10 °C',
      'B where MAP < 10 Pth; BW where MAP < 5 Pth; h where MAT ≥ 18 °C, else k',
      'A where the coldest month is at least 18 °C; C where it is above 0 °C; D below',
      's where the driest summer month has < 40 mm and < a third of the wettest winter month; w where the driest winter month has < a tenth of the wettest summer month; else f',
      'a where the warmest month is at least 22 °C; b with four months of 10 °C; d (D only) below −38 °C; else c',
    ],
    inputs: [PLACE_INPUT],
    symbols: [
      { symbol: 'MAT', meaning: 'Mean temperature of the year', unit: '°C' },
      { symbol: 'MAP', meaning: 'Precipitation of the year', unit: 'mm' },
      {
        symbol: 'Pth',
        meaning: '2 MAT; + 28 where 70 % falls in the warm half, + 14 where neither half has 70 %',
        unit: '',
      },
    ],
    validity: 'Needs twelve months of temperature and precipitation; without precipitation no class is given.',
    source:
      'Peel, Finlayson & McMahon (2007), Hydrol. Earth Syst. Sci. 11, 1633-1644, table 1; class limits from memory.',
    caution: 'A place near a limit changes its class with the years that are averaged.',
    compute: (values) => {
      const station = exampleStation(values.choice('place'));
      const normals = { meanC: station.meanC, precipitationMm: station.precipitationMm as TwelveMonths };
      const figures = koeppenFigures(normals);
      return [
        { symbol: 'MAT', meaning: 'Mean of the year', unit: '°C', value: figures.annualMeanC, decimals: 1 },
        { symbol: 'MAP', meaning: 'Precipitation of the year', unit: 'mm', value: figures.annualMm, decimals: 0 },
        { symbol: 'Pth', meaning: 'Threshold of dryness', unit: '', value: figures.drynessThreshold, decimals: 1 },
        { symbol: 'Tcold', meaning: 'Coldest month', unit: '°C', value: figures.coldestC, decimals: 1 },
        { symbol: 'Thot', meaning: 'Warmest month', unit: '°C', value: figures.warmestC, decimals: 1 },
        { symbol: 'class', meaning: 'Climate class', unit: '', value: koeppenClass(normals), decimals: 0 },
      ];
    },
  },
  {
    id: 'hardiness-zone',
    field: 'weather',
    title: 'Plant hardiness zone',
    usedFor: 'The zone shown with a pond; the office may put the official one in its place.',
    equations: ['zone = floor[(TF + 60) / 10] + 1, TF in °F', 'a where the remainder is below 5 °F, else b'],
    inputs: [
      {
        kind: 'number',
        name: 'extremeMinC',
        symbol: 'T',
        meaning: 'Mean over 30 years of the coldest night of each year',
        unit: '°C',
        min: -60,
        max: 25,
        example: -9.94,
      },
    ],
    symbols: [],
    validity: 'Below zone 1a it stays 1a, above 13b it stays 13b. The lower limit belongs to the zone.',
    source: 'Zones of the US Department of Agriculture, edition 2023; the ends of the scale from memory.',
    caution: 'It tells the coldest night of a year and nothing of summer, of season or of water.',
    compute: (values) => {
      const zone = hardinessZoneOf({ extremeMinC: values.number('extremeMinC') });
      return [
        { symbol: 'zone', meaning: 'Hardiness zone', unit: '', value: zone, decimals: 0 },
        { symbol: 'from', meaning: 'It begins at', unit: '°C', value: hardinessZoneMinC(zone), decimals: 1 },
      ];
    },
  },
  {
    id: 'coldest-night',
    field: 'weather',
    title: 'Coldest night of a year, from monthly figures',
    usedFor: 'The hardiness zone of a pond, since stations carry no yearly minima.',
    equations: ['T = Tmin − 2.7 s, both of the month with the lowest Tmin'],
    inputs: [PLACE_INPUT],
    symbols: [
      { symbol: 'Tmin', meaning: 'Mean of the daily minima of a month', unit: '°C' },
      { symbol: 's', meaning: 'Spread of the daily means inside that month', unit: '°C' },
    ],
    validity: 'Good to 2.5 °C, half a zone either way.',
    source: 'Derived: a rule of ours on stations with both figures.',
    caution: 'De Bilt comes out 2 °C too mild.',
    compute: (values) => {
      const extremeMinC = estimateExtremeMinC(exampleStation(values.choice('place')));
      return [
        { symbol: 'T', meaning: 'Coldest night', unit: '°C', value: extremeMinC, decimals: 1 },
        { symbol: 'zone', meaning: 'Hardiness zone', unit: '', value: hardinessZoneOf({ extremeMinC }), decimals: 0 },
      ];
    },
  },
  {
    id: 'share-of-sun-from-sunshine',
    field: 'weather',
    title: 'Share of the sun that reaches the ground, by sunshine',
    usedFor: 'The sun of the water forecast and of evaporation at stations that count hours of sunshine.',
    equations: ['share = Rs / Ra = 0.25 + 0.50 n / N at the middle of the month'],
    inputs: [
      { ...LATITUDE, symbol: 'φ', meaning: 'Latitude of the station', example: 52.1 },
      MONTH,
      {
        kind: 'number',
        name: 'sunshineHours',
        symbol: 'n',
        meaning: 'Sunshine in the month',
        unit: 'h',
        min: 0,
        max: 744,
        example: 219,
      },
    ],
    symbols: [{ symbol: 'N', meaning: 'Daylight there is in the month', unit: 'h' }],
    validity: 'Every latitude; more sunshine than daylight counts as all of it. In polar night the share is 0.25.',
    source: 'Allen et al. (1998), FAO Irrigation and Drainage Paper 56, eq 34 and 35.',
    compute: (values) => [
      {
        symbol: 'share',
        meaning: 'Share of the sun at the ground',
        unit: '',
        value: ofMonth(
          sunShareFromSunshine({
            latitude: values.number('latitude'),
            sunshineHours: twelveMonths(() => values.number('sunshineHours')),
          }),
          MONTH_CHOICES.findIndex(({ value }) => value === values.choice('month')),
        ),
        decimals: 2,
      },
    ],
  },
  {
    id: 'share-of-sun-from-class',
    field: 'weather',
    title: 'Share of the sun, where nobody counts sunshine',
    usedFor: 'Sites whose stations have no sunshine, most of the United States among them.',
    equations: [
      '0.65 desert (BW), 0.55 steppe (BS)',
      '0.60 Mediterranean summer, 0.50 Mediterranean winter (Cs)',
      '0.45 marine (Cfb), 0.33 cloudy cool coast (Cfc, ET)',
      '0.50 everywhere else',
    ],
    inputs: [
      {
        kind: 'choice',
        name: 'koeppen',
        symbol: 'class',
        meaning: 'Climate class',
        choices: SUN_CLASSES.map((value) => ({ value, label: value })),
        example: 'Csa',
      },
      MONTH,
      { ...LATITUDE, symbol: 'φ', meaning: 'Latitude, to know which half of the year is summer', example: 38 },
    ],
    symbols: [],
    validity: 'A rough level; the office may put a measured share in its place, 0.1 to 0.8.',
    source: 'Derived from lakes and stations with sunshine; steppe and Mediterranean winter are midpoints of ours.',
    caution: 'On six small cloudy ponds a share of 0.45 instead of 0.30 cost 0.6 °C: know the cloudiness.',
    compute: (values) => [
      {
        symbol: 'share',
        meaning: 'Share of the sun at the ground',
        unit: '',
        value: ofMonth(
          sunShareFromKoeppen({ latitude: values.number('latitude'), koeppen: values.choice('koeppen') }),
          MONTH_CHOICES.findIndex(({ value }) => value === values.choice('month')),
        ),
        decimals: 2,
      },
    ],
  },
];
