import { describe, expect, it } from '@jest/globals';
import { greatCircleKm } from '../../../src/core/climate/great-circle.js';
import { siteClimateFor, withOverrides } from '../../../src/core/climate/site-climate.js';
import type { Station } from '../../../src/core/climate/station.js';
import { sunShareFromKoeppen, sunShareFromSunshine } from '../../../src/core/climate/sun-share.js';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { twelve } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

/** Sunshine of De Bilt and of Madrid (Barajas), Deutscher Wetterdienst, CLIMAT 2003-2021. [h a month] */
const DE_BILT_SUN_H = twelve(64, 84, 142, 202, 222, 218, 219, 197, 167, 125, 69, 57);

function aStation(changes: Partial<Station> = {}): Station {
  return {
    id: 'wmo-1',
    name: 'Here',
    country: 'US',
    latitude: 45,
    longitude: -90,
    elevationM: 200,
    period: '1991-2020',
    origin: 'test',
    meanC: twelve(-8, -6, 0, 8, 14, 19, 22, 21, 16, 9, 2, -6),
    maxC: twelve(-3, -1, 5, 13, 19, 24, 27, 26, 21, 14, 7, -1),
    minC: twelve(-13, -11, -5, 3, 9, 14, 17, 16, 11, 4, -3, -11),
    vapourPressureHPa: null,
    sunshineHours: null,
    precipitationMm: twelve(60),
    betweenYearsSdC: twelve(2),
    dailySdC: twelve(5),
    lastFreezeP50: null,
    firstFreezeP50: null,
    ...changes,
  };
}

const site = { latitude: 45, longitude: -90, elevationM: 200 };

describe('great-circle distance', () => {
  it('of a degree of latitude is 111.2 km, of half the globe 20015 km', () => {
    expectWithin(greatCircleKm({ latitude: 0, longitude: 0 }, { latitude: 1, longitude: 0 }), 111.195, 0.01);
    expectWithin(greatCircleKm({ latitude: 0, longitude: 0 }, { latitude: 0, longitude: 180 }), 20015.1, 0.1);
    expectWithin(greatCircleKm({ latitude: 10, longitude: 179 }, { latitude: 10, longitude: -179 }), 219.0, 0.1);
  });
});

describe('climate of a site', () => {
  it('is that of its own station', () => {
    const climate = siteClimateFor(site, [aStation()]);
    expect(climate.meanC).toEqual(aStation().meanC);
    expect(climate.koeppen).toBe('Dfa');
    expect(climate.hardinessZone).toBe('5a');
    expect(climate.warnings).toEqual([]);
  });

  it('moves temperatures to the elevation of the site, minima less', () => {
    const climate = siteClimateFor({ ...site, elevationM: 400 }, [aStation()]);
    expectWithin(climate.meanC[6]!, 22 - 1.3, 1e-9);
    expectWithin(climate.maxC[6]!, 27 - 1.3, 1e-9);
    expectWithin(climate.minC[6]!, 17 - 1.1, 1e-9);
  });

  it('counts 100 m of height as 30 km of distance', () => {
    const near = aStation({ id: 'near-but-high', latitude: 45.2, elevationM: 700 });
    const far = aStation({ id: 'far-but-level', latitude: 46 });
    expect(siteClimateFor(site, [near, far]).stations[0]!.id).toBe('far-but-level');
  });

  it('blends the nearest three within 250 km by inverse squares, else takes one', () => {
    const a = aStation({ id: 'a', latitude: 45.5 });
    const b = aStation({ id: 'b', latitude: 44, meanC: twelve(10) });
    const c = aStation({ id: 'c', latitude: 46 });
    const far = aStation({ id: 'far', latitude: 49 });
    const blend = siteClimateFor(site, [far, c, b, a]);
    expect(blend.stations.map((station) => station.id)).toEqual(['a', 'b', 'c']);
    expectWithin(blend.stations[0]!.weight, 4 / 6, 0.001);
    expectWithin(blend.meanC[6]!, 22 + (10 - 22) / 6, 0.01);
    const alone = siteClimateFor(site, [a, b, far]);
    expect(alone.stations.map((station) => [station.id, station.weight])).toEqual([['a', 1]]);
  });

  it('warns of a station that is far or at another height', () => {
    const climate = siteClimateFor({ ...site, elevationM: 900 }, [aStation({ latitude: 47 })]);
    expect(climate.warnings.map((warning) => warning.code)).toEqual(['station-far', 'station-other-elevation']);
  });

  it('keeps the relative humidity of the station, or takes 70 % where none is known', () => {
    const guessed = siteClimateFor(site, [aStation()]);
    expectWithin(guessed.vapourPressureHPa[6]!, 0.7 * 26.43, 0.02);
    const known = siteClimateFor(site, [
      aStation({ vapourPressureHPa: twelve(3, 3, 4, 7, 10, 14, 13.2, 15, 12, 8, 5, 3) }),
    ]);
    expectWithin(known.vapourPressureHPa[6]!, 13.2, 0.02);
  });

  it('takes the share of sun from the stations that have sunshine, else from the climate class', () => {
    const sunny = aStation({ id: 'sunny', latitude: 45.6, sunshineHours: twelve(200) });
    const others = [aStation({ id: 'x' }), aStation({ id: 'y', latitude: 45.2 })];
    const blended = siteClimateFor(site, [...others, sunny]).sunShare;
    const alone = siteClimateFor(site, [sunny]).sunShare;
    for (const [month, share] of alone.entries()) expectWithin(blended[month]!, share, 1e-9);
    expect(siteClimateFor(site, others).sunShare).toEqual(twelve(0.5));
  });

  it('uses a station chosen by hand and refuses an unknown one', () => {
    const stations = [aStation({ id: 'a' }), aStation({ id: 'b', latitude: 46 })];
    expect(siteClimateFor(site, stations, { stationId: 'b' }).stations.map((station) => station.id)).toEqual(['b']);
    expect(() => siteClimateFor(site, stations, { stationId: 'c' })).toThrow(InvalidValueError);
    expect(() => siteClimateFor(site, [])).toThrow(InvalidValueError);
    expect(() => siteClimateFor({ ...site, latitude: 100 }, stations)).toThrow(OutOfRangeError);
  });

  it('lets a person overrule class, zone and sun, and nothing absurd', () => {
    const climate = siteClimateFor(site, [aStation()]);
    const changed = withOverrides(climate, { koeppen: 'Cfb', hardinessZone: '8a', sunShare: 0.4 });
    expect([changed.koeppen, changed.hardinessZone, changed.sunShare[3]]).toEqual(['Cfb', '8a', 0.4]);
    expect(withOverrides(climate, {})).toEqual(climate);
    expect(() => withOverrides(climate, { koeppen: 'Xyz' })).toThrow(InvalidValueError);
    expect(() => withOverrides(climate, { hardinessZone: '15c' })).toThrow(InvalidValueError);
    expect(() => withOverrides(climate, { sunShare: 2 })).toThrow(OutOfRangeError);
  });
});

describe('share of sun', () => {
  it('of De Bilt follows its sunshine to 0.01 (derived)', () => {
    const share = sunShareFromSunshine({ latitude: 52.1, sunshineHours: DE_BILT_SUN_H });
    const printed = [0.38, 0.41, 0.45, 0.5, 0.48, 0.47, 0.47, 0.47, 0.47, 0.45, 0.39, 0.37];
    for (const [month, value] of printed.entries()) expectWithin(share[month]!, value, 0.0101);
  });

  it('has a sunny summer in Mediterranean climates of either hemisphere', () => {
    expect(sunShareFromKoeppen({ latitude: 38, koeppen: 'Csa' }).slice(5, 7)).toEqual([0.6, 0.6]);
    expect(sunShareFromKoeppen({ latitude: -34, koeppen: 'Csa' }).slice(5, 7)).toEqual([0.5, 0.5]);
    expect(sunShareFromKoeppen({ latitude: 33, koeppen: 'BWh' })).toEqual(twelve(0.65));
  });
});
