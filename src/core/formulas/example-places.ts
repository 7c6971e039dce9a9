import { siteClimateFor } from '../climate/site-climate.js';
import type { SiteClimate, Station } from '../climate/station.js';
import { InvalidValueError } from '../errors.js';
import type { ChoiceInput } from './formula.js';

/**
 * Five unlike climates for worked examples: means of 2003 to 2021, Deutscher Wetterdienst, CLIMAT reports (CC BY 4.0,
 * data changed); the same figures as in the table of stations.
 */
const STATIONS: readonly Station[] = [
  {
    id: 'wmo-06260',
    name: 'De Bilt',
    country: 'NL',
    latitude: 52.1,
    longitude: 5.18,
    elevationM: 4,
    period: '2003-2021',
    origin: 'dwd-climat',
    meanC: [3.9, 4, 6.4, 10.1, 13.4, 16.7, 18.4, 17.8, 14.9, 11.2, 7.4, 4.6],
    maxC: [6.3, 7.1, 10.6, 15.3, 18.3, 21.6, 23.3, 22.8, 19.8, 15.2, 10.3, 7],
    minC: [1.2, 0.9, 2.1, 4.5, 7.8, 11.2, 13.1, 12.5, 9.9, 7.3, 4.2, 2],
    vapourPressureHPa: [7.2, 7, 7.6, 8.8, 11.1, 13.9, 15.6, 15.8, 13.9, 11.6, 9.3, 7.7],
    sunshineHours: [64, 84, 142, 202, 222, 218, 219, 197, 167, 125, 69, 57],
    precipitationMm: [75, 64, 55, 37, 63, 62, 92, 89, 68, 79, 76, 80],
    betweenYearsSdC: [2.12, 1.96, 1.57, 1.82, 1.57, 1.02, 1.51, 1.15, 1.27, 1.57, 1.28, 2.31],
    dailySdC: [3.23, 3.22, 2.87, 2.95, 3.09, 2.72, 2.44, 2.4, 2.31, 2.74, 3.14, 3.19],
    lastFreezeP50: null,
    firstFreezeP50: null,
  },
  {
    id: 'wmo-72658',
    name: 'Minneapolis, MN',
    country: 'US',
    latitude: 44.88,
    longitude: -93.22,
    elevationM: 255,
    period: '2003-2021',
    origin: 'dwd-climat',
    meanC: [-8.4, -7.2, 1.4, 8.6, 15.4, 21.4, 24.1, 22.4, 18.1, 9.8, 2.1, -5.6],
    maxC: [-4.4, -2.8, 6, 13.9, 20.8, 26.6, 29.3, 27.4, 23.2, 14.5, 6.2, -2],
    minC: [-12.5, -11.7, -3.4, 3.3, 10.1, 16.3, 18.9, 17.4, 12.9, 5.2, -2.1, -9.3],
    vapourPressureHPa: [2.9, 2.9, 4.9, 6.5, 10.4, 15.6, 18.5, 17.4, 14.5, 8.3, 5.3, 3.5],
    sunshineHours: null,
    precipitationMm: [18, 26, 44, 78, 103, 110, 89, 111, 75, 69, 33, 37],
    betweenYearsSdC: [2.99, 3.41, 3.22, 2.35, 1.72, 1.42, 1.43, 1.38, 1.41, 2.03, 2.65, 2.88],
    dailySdC: [6.2, 5.72, 5.77, 5.12, 4.63, 3.22, 2.65, 2.77, 4.33, 4.88, 5.28, 5.48],
    lastFreezeP50: null,
    firstFreezeP50: null,
  },
  {
    id: 'wmo-72278',
    name: 'Phoenix, AZ',
    country: 'US',
    latitude: 33.43,
    longitude: -112,
    elevationM: 337,
    period: '2003-2021',
    origin: 'dwd-climat',
    meanC: [13.8, 15.5, 19.5, 23.3, 27.9, 33.7, 35.6, 34.8, 31.9, 25.6, 18.9, 13.4],
    maxC: [20, 21.8, 26.2, 30.3, 34.9, 40.9, 41.6, 40.8, 38.2, 32.2, 25.3, 19.3],
    minC: [7.7, 9.3, 12.8, 16.3, 20.9, 26.5, 29.6, 28.8, 25.7, 18.9, 12.4, 7.5],
    vapourPressureHPa: [6.1, 6.3, 6.2, 5.5, 6.2, 7.6, 15.6, 16.6, 13.4, 8.9, 6.6, 6.1],
    sunshineHours: null,
    precipitationMm: [21, 20, 15, 3, 3, 1, 23, 25, 8, 5, 14, 18],
    betweenYearsSdC: [1.19, 1.8, 1.67, 1.05, 1.61, 1.03, 0.8, 1.2, 0.94, 1.43, 1.57, 1.02],
    dailySdC: [2.73, 2.9, 3.21, 3.18, 3.11, 2.48, 2.41, 2.37, 2.7, 3.18, 3.36, 2.88],
    lastFreezeP50: null,
    firstFreezeP50: null,
  },
  {
    id: 'wmo-94672',
    name: 'Adelaide',
    country: 'AU',
    latitude: -34.95,
    longitude: 138.52,
    elevationM: 8,
    period: '2003-2021',
    origin: 'dwd-climat',
    meanC: [22.7, 22.2, 20.4, 17.6, 14.5, 11.9, 11.4, 12, 14.2, 16.6, 19.4, 21.1],
    maxC: [28.9, 28.1, 26, 22.9, 18.8, 16.1, 15.3, 16.3, 19, 22.2, 25.3, 27],
    minC: [17, 16.8, 15.1, 12.5, 10.2, 7.8, 7.5, 7.7, 9.4, 11.2, 13.9, 15.5],
    vapourPressureHPa: [13.4, 13.6, 13, 11.7, 11.2, 10.3, 10, 9.7, 9.9, 10.2, 11.3, 12.2],
    sunshineHours: [336, 283, 266, 212, 169, 149, 152, 186, 219, 271, 295, 289],
    precipitationMm: [20, 17, 20, 31, 44, 57, 51, 49, 38, 26, 21, 20],
    betweenYearsSdC: [1.29, 1.27, 1.36, 1.04, 1.03, 0.88, 0.65, 0.81, 1.09, 1.21, 1.41, 1.05],
    dailySdC: [3.85, 3.64, 3.31, 2.83, 2.02, 1.87, 1.87, 2.04, 2.63, 3.48, 4.04, 4],
    lastFreezeP50: null,
    firstFreezeP50: null,
  },
  {
    id: 'wmo-48698',
    name: 'Singapore',
    country: 'SG',
    latitude: 1.37,
    longitude: 103.98,
    elevationM: 16,
    period: '2003-2021',
    origin: 'dwd-climat',
    meanC: [26.9, 27.4, 27.9, 28.3, 28.7, 28.6, 28.2, 28.2, 28, 28, 27.3, 26.9],
    maxC: [30.5, 31.5, 32.3, 32.4, 32.3, 31.8, 31.3, 31.3, 31.5, 31.7, 31.3, 30.6],
    minC: [24.3, 24.8, 25.1, 25.4, 25.8, 25.8, 25.5, 25.6, 25.3, 25.1, 24.7, 24.5],
    vapourPressureHPa: [29.3, 29.1, 30.3, 31.3, 32.1, 31.4, 30.8, 30.5, 30.4, 30.4, 30.6, 30.1],
    sunshineHours: [182, 211, 201, 187, 184, 174, 185, 193, 166, 164, 137, 136],
    precipitationMm: [291, 92, 220, 160, 172, 144, 138, 155, 130, 173, 247, 274],
    betweenYearsSdC: [0.65, 0.61, 0.68, 0.47, 0.37, 0.36, 0.47, 0.39, 0.41, 0.37, 0.3, 0.36],
    dailySdC: [0.87, 0.68, 0.8, 0.85, 0.89, 0.97, 0.93, 0.89, 0.92, 0.92, 0.79, 0.88],
    lastFreezeP50: null,
    firstFreezeP50: null,
  },
];

/** The choice of such a place in an example. */
export const PLACE_INPUT: ChoiceInput = {
  kind: 'choice',
  name: 'place',
  symbol: 'place',
  meaning: 'Station whose monthly figures are used',
  choices: STATIONS.map(({ id, name }) => ({ value: id, label: name })),
  example: 'wmo-72658',
};

export function exampleStation(id: string): Station {
  const station = STATIONS.find((one) => one.id === id);
  if (!station) throw new InvalidValueError('place', id, 'Choose one of the example stations.');
  return station;
}

/** The climate of an example place, as that of a pond beside its station. */
export function exampleClimate(id: string): SiteClimate {
  return siteClimateFor(exampleStation(id), STATIONS, { stationId: id });
}
