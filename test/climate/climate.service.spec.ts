import { describe, expect, it } from '@jest/globals';
import { ClimateService } from '../../src/climate/index.js';
import { loadStations } from '../../src/config/stations.js';

const stations = loadStations('config/stations');
const climate = new ClimateService(stations);
const MADISON = { latitude: 43.07, longitude: -89.4, elevationM: 270 };

describe('ClimateService', () => {
  it('takes the climate of a site from the stations around it', () => {
    const site = climate.siteFor(MADISON);
    expect(site.koeppen).toMatch(/^D/);
    expect(site.stations.length).toBeGreaterThan(0);
    expect(site.warnings).toEqual([]);
  });

  it('lays over it what a person knows better', () => {
    const site = climate.siteFor({ ...MADISON, hardinessZone: '6a', koeppen: 'Dfb' });
    expect(site).toMatchObject({ hardinessZone: '6a', koeppen: 'Dfb' });
  });

  it('uses a chosen station alone and warns when it is far', () => {
    const [miami] = climate.stationsNear(25.8, -80.2, 3, 1);
    const site = climate.siteFor({ ...MADISON, stationId: miami!.station.id });
    expect(site.stations.map(({ id }) => id)).toEqual([miami!.station.id]);
    expect(site.warnings).toContainEqual({ code: 'station-far', distanceKm: expect.any(Number) });
  });

  it('warns where the next station is far away', () => {
    expect(climate.siteFor({ latitude: -48, longitude: -110, elevationM: 0 }).warnings).toContainEqual({
      code: 'station-far',
      distanceKm: expect.any(Number),
    });
  });

  it('offers stations by distance, height counted in', () => {
    const near = climate.stationsNear(MADISON.latitude, MADISON.longitude, MADISON.elevationM, 5);
    expect(near).toHaveLength(5);
    const penalised = near.map(
      ({ distanceKm, elevationDifferenceM }) => distanceKm + 0.3 * Math.abs(elevationDifferenceM),
    );
    expect([...penalised].sort((a, b) => a - b)).toEqual(penalised);
    expect(near[0]!.distanceKm).toBeLessThan(150);
  });

  it('refuses a station that is not there and a place off the globe', () => {
    expect(() => climate.requireStation('nowhere')).toThrow(/nowhere/);
    expect(() => climate.requireStation(null)).not.toThrow();
    expect(() => climate.siteFor({ ...MADISON, stationId: 'nowhere' })).toThrow(/bundled stations/);
    expect(() => climate.stationsNear(91, 0, 0)).toThrow(/latitude: 91/);
    expect(() => climate.stationsNear(Number.NaN, 0, 0)).toThrow(/latitude/);
  });
});
