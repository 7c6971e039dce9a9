import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

export type Answering = (request: IncomingMessage, response: ServerResponse) => void;

export interface WeatherServer {
  readonly address: string;
  /** Queries asked so far. */
  readonly asked: URLSearchParams[];
  /** Answers otherwise from now on. */
  answer: Answering;
  close(): Promise<void>;
}

/** A forecast provider on this machine, which says what a test wants. */
export async function weatherServer(answer: Answering): Promise<WeatherServer> {
  const state = { asked: [] as URLSearchParams[], answer };
  const server = createServer((request, response) => {
    state.asked.push(new URL(request.url ?? '/', 'http://localhost').searchParams);
    state.answer(request, response);
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return Object.assign(state, {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/daily`,
    close: () =>
      new Promise<void>((closed) => {
        server.closeAllConnections();
        server.close(() => closed());
      }),
  });
}

export function json(body: unknown): Answering {
  return (_request, response) => {
    response.setHeader('Content-Type', 'application/json');
    response.end(JSON.stringify(body));
  };
}

/** Ten days in the form `days`, from a date on; the mean of each by its date. */
export function tenDays(firstDate: string, meanC: (date: string) => number): unknown {
  const first = Date.parse(`${firstDate}T00:00:00Z`);
  return {
    days: Array.from({ length: 10 }, (_, ahead) => {
      const date = new Date(first + ahead * 86_400_000).toISOString().slice(0, 10);
      return {
        date,
        airTemperatureC: meanC(date),
        airTemperatureMinC: meanC(date) - 5,
        airTemperatureMaxC: meanC(date) + 5,
        solarMjPerM2: 4,
        relativeHumidityPct: 80,
      };
    }),
  };
}
