import type { WeatherSettings } from '../../config/index.js';
import { DAILY_ARRAYS } from '../providers/daily-arrays.js';
import { DAILY_DAYS } from '../providers/daily-days.js';
import {
  type ForecastDay,
  WeatherAnswerError,
  type WeatherFormat,
  type WeatherPlace,
} from '../providers/weather-provider.js';

const FORMATS: Readonly<Record<WeatherSettings['format'], WeatherFormat>> = {
  days: DAILY_DAYS,
  arrays: DAILY_ARRAYS,
};
/** From asking until the last byte. [ms] */
const PATIENCE_MS = 5_000;
const MOST_BYTES = 1_000_000;
/** After so many faults one after the other nothing is asked for a minute; then one question tries again. */
const FAULTS_TO_OPEN = 5;
const OPEN_MS = 60_000;

export interface WeatherClientOptions {
  readonly patienceMs?: number;
  /** Milliseconds of a clock that is never set back. */
  readonly nowMs?: () => number;
}

/**
 * Asks the one address of the settings and no other: redirects are not followed, a slow, large or odd answer is given
 * up, and a provider that is down is left alone for a while.
 */
export class WeatherClient {
  private readonly format: WeatherFormat;
  private readonly patienceMs: number;
  private readonly nowMs: () => number;
  private faults = 0;
  private closedUntilMs = 0;

  constructor(
    private readonly settings: WeatherSettings,
    options: WeatherClientOptions = {},
  ) {
    this.format = FORMATS[settings.format];
    this.patienceMs = options.patienceMs ?? PATIENCE_MS;
    this.nowMs = options.nowMs ?? (() => performance.now());
  }

  /** @throws WeatherAnswerError in every case in which no usable forecast came */
  async ask(place: WeatherPlace): Promise<ForecastDay[]> {
    if (this.faults >= FAULTS_TO_OPEN && this.nowMs() < this.closedUntilMs) {
      throw new WeatherAnswerError('The forecast failed several times and is left alone for a minute.');
    }
    try {
      const days = this.format.read(await this.fetched(this.format.url(this.settings.address, place)));
      this.faults = 0;
      return days;
    } catch (error) {
      this.faults += 1;
      this.closedUntilMs = this.nowMs() + OPEN_MS;
      throw error instanceof WeatherAnswerError ? error : new WeatherAnswerError(reasonOf(error, this.patienceMs));
    }
  }

  private async fetched(url: URL): Promise<unknown> {
    const response = await fetch(url, {
      redirect: 'manual',
      signal: AbortSignal.timeout(this.patienceMs),
      headers: { accept: 'application/json' },
    });
    if (response.status !== 200) {
      await response.body?.cancel();
      throw new WeatherAnswerError(`The forecast answered ${response.status}.`);
    }
    try {
      return JSON.parse(await limitedText(response));
    } catch (error) {
      if (error instanceof SyntaxError) throw new WeatherAnswerError('The answer is not JSON.');
      throw error;
    }
  }
}

async function limitedText(response: Response): Promise<string> {
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  const reader = response.body?.getReader();
  for (let read = await reader?.read(); read && !read.done; read = await reader?.read()) {
    const chunk: Uint8Array = read.value;
    bytes += chunk.length;
    if (bytes > MOST_BYTES) {
      await reader?.cancel();
      throw new WeatherAnswerError('The answer is larger than 1 MB.');
    }
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function reasonOf(error: unknown, patienceMs: number): string {
  const { name, message, cause } = error as Error & { cause?: { code?: string; message?: string } };
  if (name === 'TimeoutError') return `The forecast did not answer within ${Math.round(patienceMs / 1000)} s.`;
  return `The forecast cannot be reached (${cause?.code ?? cause?.message ?? message}).`;
}
