import { afterEach, describe, expect, it } from '@jest/globals';
import { WeatherClient } from '../../../src/climate/weather/weather-client.js';
import { json, type WeatherServer, weatherServer } from './weather-server.js';

const MADISON = { latitude: 43.1, longitude: -89.4 };

/** The same three days in both forms; the second has keys and a fourth day of nulls as such answers do. */
const DAYS = {
  issued: '2026-11-25T06:00:00Z',
  days: [
    { date: '2026-11-25', airTemperatureC: 1.5, airTemperatureMinC: -2, airTemperatureMaxC: 5, solarMjPerM2: 6.2 },
    { date: '2026-11-26', airTemperatureC: -1, airTemperatureMinC: -4, airTemperatureMaxC: 2, solarMjPerM2: 5 },
    { date: '2026-11-27', airTemperatureC: -6, airTemperatureMinC: -11, airTemperatureMaxC: -1, solarMjPerM2: 7.1 },
  ],
};
const ARRAYS = {
  latitude: 43.1,
  longitude: -89.4,
  timezone: 'America/Chicago',
  daily_units: {
    time: 'iso8601',
    temperature_2m_min: '°C',
    temperature_2m_max: '°C',
    shortwave_radiation_sum: 'MJ/m²',
  },
  daily: {
    time: ['2026-11-25', '2026-11-26', '2026-11-27', '2026-11-28'],
    temperature_2m_min: [-2, -4, -11, null],
    temperature_2m_max: [5, 2, -1, null],
    shortwave_radiation_sum: [6.2, 5, 7.1, null],
  },
};
const FORMATS = [
  ['days', DAYS],
  ['arrays', ARRAYS],
] as const;

describe.each(FORMATS)('WeatherClient over answers of the form %s', (format, recorded) => {
  let server: WeatherServer;
  afterEach(() => server.close());
  async function client(answer: Parameters<typeof weatherServer>[0], options: { nowMs?: () => number } = {}) {
    server = await weatherServer(answer);
    return new WeatherClient({ address: server.address, format }, { patienceMs: 400, ...options });
  }
  const changed = (from: string, to: string) => JSON.parse(JSON.stringify(recorded).replaceAll(from, to)) as unknown;

  it('asks for a place and reads its days', async () => {
    const days = await (await client(json(recorded))).ask(MADISON);
    expect(days).toEqual(DAYS.days.map((day) => ({ ...day, relativeHumidityPct: null })));
    expect(server.asked).toHaveLength(1);
    expect(server.asked[0]!.get('latitude')).toBe('43.1');
    expect(server.asked[0]!.get('longitude')).toBe('-89.4');
  });

  it.each([
    ['a page', (_q: unknown, response: { end(text: string): void }) => response.end('<html>Sorry</html>'), 'not JSON'],
    ['another form', json({ hourly: [] }), 'not of the form'],
    [
      'no days',
      json(
        format === 'days'
          ? { days: [] }
          : { ...ARRAYS, daily: { time: [], temperature_2m_min: [], temperature_2m_max: [] } },
      ),
      'no days',
    ],
    ['a gap between days', json(changed('2026-11-26', '2026-11-30')), 'follow each other'],
    ['no number', json(changed('-11,', '"cold",')), 'not of the form'],
    ['degrees that cannot be', json(changed('-11,', '-99,')), 'cannot be|between|°C'],
  ] as const)('refuses %s', async (_what, answer, words) => {
    await expect((await client(answer as Parameters<typeof weatherServer>[0])).ask(MADISON)).rejects.toThrow(
      new RegExp(words),
    );
  });

  it.each([500, 404, 204, 302])('refuses an answer with status %i and follows no redirect', async (status) => {
    const one = await client((_request, response) => {
      response.writeHead(status, { Location: '/elsewhere' }).end();
    });
    await expect(one.ask(MADISON)).rejects.toThrow(`answered ${status}`);
    expect(server.asked).toHaveLength(1);
  });

  it('gives up on silence, on a byte a second, on 1 MB and more, and on nobody', async () => {
    const silent = await client(() => undefined);
    await expect(silent.ask(MADISON)).rejects.toThrow('did not answer within');
    server.answer = (_request, response) => {
      const drip = setInterval(() => response.write(' '), 50);
      response.on('close', () => clearInterval(drip));
    };
    await expect(silent.ask(MADISON)).rejects.toThrow('did not answer within');
    server.answer = (_request, response) => response.end(`{"x":"${'y'.repeat(1_200_000)}"}`);
    await expect(silent.ask(MADISON)).rejects.toThrow('larger than 1 MB');
    await server.close();
    await expect(silent.ask(MADISON)).rejects.toThrow(/cannot be reached \((ECONNREFUSED|UND_ERR_SOCKET)\)/);
    server = await weatherServer(json(recorded));
  });

  it('leaves a provider alone for a minute after five faults, then tries once', async () => {
    let nowMs = 0;
    const one = await client((_request, response) => response.writeHead(503).end(), { nowMs: () => nowMs });
    for (let fault = 0; fault < 7; fault++) await one.ask(MADISON).catch(() => undefined);
    expect(server.asked).toHaveLength(5);
    nowMs += 61_000;
    await one.ask(MADISON).catch(() => undefined);
    await one.ask(MADISON).catch(() => undefined);
    expect(server.asked).toHaveLength(6);
    nowMs += 61_000;
    server.answer = json(recorded);
    expect(await one.ask(MADISON)).toHaveLength(3);
  });
});

describe('WeatherClient over arrays', () => {
  it('refuses °F, whatever the figures are', async () => {
    const inF = JSON.parse(JSON.stringify(ARRAYS).replaceAll('°C', '°F')) as unknown;
    const server = await weatherServer(json(inF));
    try {
      const client = new WeatherClient({ address: server.address, format: 'arrays' });
      await expect(client.ask(MADISON)).rejects.toThrow('comes in °F, not in °C');
    } finally {
      await server.close();
    }
  });
});
