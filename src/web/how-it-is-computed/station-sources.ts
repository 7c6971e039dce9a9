import path from 'node:path';
import { loadStationGaps, loadStationOrigins, SETTINGS, type Settings } from '../../config/index.js';
import type { StationSources } from './how-it-is-computed.view-model.js';

/** Injection token of the sources and gaps that the head of the station table names. */
export const STATION_SOURCES = Symbol('station-sources');

export const stationSourcesProvider = {
  provide: STATION_SOURCES,
  inject: [SETTINGS],
  useFactory: ({ configDirectory }: Settings): StationSources => {
    const folder = path.join(configDirectory, 'stations');
    return { origins: loadStationOrigins(folder), gaps: loadStationGaps(folder) };
  },
};
