import {
  clearSkyMjPerM2Day,
  daylightHours,
  extraterrestrialMjPerM2Day,
  inverseSunDistance,
  netLongwaveMjPerM2Day,
  netRadiationMjPerM2Day,
  solarDeclinationRad,
  solarFromSunshine,
  sunsetHourAngleRad,
} from '../climate/fao56.js';
import type { Formula } from './formula.js';
import { DAY_OF_YEAR, ELEVATION, FAO_56, LATITUDE, MAX, MIN } from './weather-inputs.js';

/** Sun and heat radiation after FAO-56. */
export const WEATHER_SUN_FORMULAS: readonly Formula[] = [
  {
    id: 'extraterrestrial-radiation',
    field: 'weather',
    title: 'Sun above the air, and the length of the day',
    usedFor: 'The sun of every day in the heat balance and in evaporation, and shade from hours of direct sun.',
    equations: [
      'dr = 1 + 0.033 cos(2π J / 365)',
      'δ = 0.409 sin(2π J / 365 − 1.39)',
      'ωs = arccos(−tan φ tan δ), between 0 (polar night) and π (polar day)',
      'Ra = (24 · 60 / π) Gsc dr [ωs sin φ sin δ + cos φ cos δ sin ωs]',
      'N = 24 ωs / π',
    ],
    inputs: [LATITUDE, DAY_OF_YEAR],
    symbols: [{ symbol: 'Gsc', meaning: 'Solar constant', unit: 'MJ/m²/min', value: '0.0820' }],
    validity: 'Every latitude and day. In leap years the day counts on to 366; the year stays 365 long in the cosine.',
    source: `${FAO_56}, eq 21 to 25 and 34; the example is examples 8 and 9 (32.2 MJ/m²/d, 11.7 h).`,
    compute: (values) => {
      const place = { latitude: values.number('latitude'), dayOfYear: values.number('dayOfYear') };
      return [
        {
          symbol: 'dr',
          meaning: 'Inverse distance of the sun',
          unit: '',
          value: inverseSunDistance(place),
          decimals: 3,
        },
        { symbol: 'δ', meaning: 'Declination of the sun', unit: 'rad', value: solarDeclinationRad(place), decimals: 3 },
        { symbol: 'ωs', meaning: 'Hour angle of sunset', unit: 'rad', value: sunsetHourAngleRad(place), decimals: 3 },
        {
          symbol: 'Ra',
          meaning: 'Radiation above the air',
          unit: 'MJ/m²/d',
          value: extraterrestrialMjPerM2Day(place),
          decimals: 1,
        },
        { symbol: 'N', meaning: 'Length of the day', unit: 'h', value: daylightHours(place), decimals: 1 },
      ];
    },
  },
  {
    id: 'solar-radiation-from-sunshine',
    field: 'weather',
    title: 'Sun at the ground, from hours of sunshine',
    usedFor: 'The share of sun of a site, from the hours its station counts in each month.',
    equations: ['Rs = (0.25 + 0.50 n / N) Ra, n / N at most 1', 'Rso = (0.75 + 2·10⁻⁵ z) Ra'],
    inputs: [
      { ...LATITUDE, example: 50.8 },
      { ...DAY_OF_YEAR, example: 187 },
      {
        kind: 'number',
        name: 'sunshineHours',
        symbol: 'n',
        meaning: 'Sunshine of the day',
        unit: 'h',
        min: 0,
        max: 24,
        example: 9.25,
      },
      { ...ELEVATION, example: 100 },
    ],
    symbols: [
      { symbol: 'Ra', meaning: 'Radiation above the air, see above', unit: 'MJ/m²/d' },
      { symbol: 'N', meaning: 'Length of the day', unit: 'h' },
    ],
    validity: 'Anywhere; the factors 0.25 and 0.50 are those for places that have none of their own.',
    source: `${FAO_56}, eq 35 and 37; the example is example 18 (22.07 and 30.90 MJ/m²/d).`,
    compute: (values) => {
      const place = { latitude: values.number('latitude'), dayOfYear: values.number('dayOfYear') };
      const extraterrestrial = extraterrestrialMjPerM2Day(place);
      return [
        {
          symbol: 'Rs',
          meaning: 'Radiation at the ground',
          unit: 'MJ/m²/d',
          value: solarFromSunshine({
            sunshineHours: values.number('sunshineHours'),
            daylightHours: daylightHours(place),
            extraterrestrialMjPerM2Day: extraterrestrial,
          }),
          decimals: 2,
        },
        {
          symbol: 'Rso',
          meaning: 'The same under a clear sky',
          unit: 'MJ/m²/d',
          value: clearSkyMjPerM2Day({
            extraterrestrialMjPerM2Day: extraterrestrial,
            elevationM: values.number('elevationM'),
          }),
          decimals: 2,
        },
      ];
    },
  },
  {
    id: 'net-radiation',
    field: 'weather',
    title: 'Net radiation of a surface',
    usedFor: 'Evaporation: what is left of the sun once the surface has thrown back and given off its part.',
    equations: [
      'Rns = (1 − a) Rs',
      'Rnl = σ [(Tmax⁴ + Tmin⁴) / 2] (0.34 − 0.14 √ea) (1.35 Rs / Rso − 0.35), temperatures in kelvin',
      'Rn = Rns − Rnl',
    ],
    inputs: [
      {
        kind: 'number',
        name: 'albedo',
        symbol: 'a',
        meaning: 'Share of the sun thrown back; 0.08 open water, 0.23 short grass',
        unit: '',
        min: 0,
        max: 1,
        example: 0.23,
      },
      { ...MAX, example: 21.5 },
      { ...MIN, example: 12.3 },
      {
        kind: 'number',
        name: 'vapourPressureKPa',
        symbol: 'ea',
        meaning: 'Vapour pressure of the air',
        unit: 'kPa',
        min: 0,
        max: 5,
        example: 1.409,
      },
      {
        kind: 'number',
        name: 'solarMjPerM2Day',
        symbol: 'Rs',
        meaning: 'Radiation at the ground',
        unit: 'MJ/m²/d',
        min: 0,
        max: 45,
        example: 22.07,
      },
      {
        kind: 'number',
        name: 'clearSkyMjPerM2Day',
        symbol: 'Rso',
        meaning: 'The same under a clear sky',
        unit: 'MJ/m²/d',
        min: 0,
        max: 45,
        example: 30.9,
      },
    ],
    symbols: [{ symbol: 'σ', meaning: 'Stefan-Boltzmann constant', unit: 'MJ/m²/d/K⁴', value: '4.903·10⁻⁹' }],
    validity: 'Days; Rs / Rso counts as 1 at most. In polar night the sky counts as half clouded.',
    source: `${FAO_56}, eq 38 to 40; the example is example 18 (3.71 and 13.28 MJ/m²/d).`,
    caution:
      'For ponds the product counts no sky darker than an overcast one; otherwise thick cloud would turn the loss into a gain.',
    compute: (values) => {
      const day = {
        albedo: values.number('albedo'),
        maxC: values.number('maxC'),
        minC: values.number('minC'),
        vapourPressureKPa: values.number('vapourPressureKPa'),
        solarMjPerM2Day: values.number('solarMjPerM2Day'),
        clearSkyMjPerM2Day: values.number('clearSkyMjPerM2Day'),
      };
      return [
        {
          symbol: 'Rnl',
          meaning: 'Lost as heat radiation',
          unit: 'MJ/m²/d',
          value: netLongwaveMjPerM2Day(day),
          decimals: 2,
        },
        { symbol: 'Rn', meaning: 'Net radiation', unit: 'MJ/m²/d', value: netRadiationMjPerM2Day(day), decimals: 2 },
      ];
    },
  },
];
