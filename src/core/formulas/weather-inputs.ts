import type { NumberInput } from './formula.js';

export const FAO_56 = 'Allen, Pereira, Raes & Smith (1998), FAO Irrigation and Drainage Paper 56';

export const LATITUDE: NumberInput = {
  kind: 'number',
  name: 'latitude',
  symbol: 'φ',
  meaning: 'Latitude, north positive; in radians inside the equations',
  unit: '°',
  min: -90,
  max: 90,
  example: -20,
};
export const DAY_OF_YEAR: NumberInput = {
  kind: 'number',
  name: 'dayOfYear',
  symbol: 'J',
  meaning: 'Day of the year; 1 is 1 January',
  unit: 'd',
  min: 1,
  max: 366,
  example: 246,
};
export const ELEVATION: NumberInput = {
  kind: 'number',
  name: 'elevationM',
  symbol: 'z',
  meaning: 'Elevation above the sea',
  unit: 'm',
  min: -500,
  max: 6000,
  example: 1800,
};
export const MAX: NumberInput = {
  kind: 'number',
  name: 'maxC',
  symbol: 'Tmax',
  meaning: 'Highest air temperature of the day',
  unit: '°C',
  min: -60,
  max: 55,
  example: 25,
};
export const MIN: NumberInput = {
  ...MAX,
  name: 'minC',
  symbol: 'Tmin',
  meaning: 'Lowest air temperature of the day',
  example: 18,
};
