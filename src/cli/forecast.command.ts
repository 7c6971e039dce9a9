import { rename, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { runForecastFile } from '../climate/index.js';
import { loadStations } from '../config/index.js';
import { readOptions } from './options.js';
import { type Command, CommandError, type Terminal, UsageError } from './terminal.js';

const OPTIONS = {
  site: { type: 'string' },
  air: { type: 'string' },
  from: { type: 'string' },
  to: { type: 'string' },
  readings: { type: 'string' },
  history: { type: 'string' },
  out: { type: 'string' },
} as const;

export const command: Command = {
  help: `tarnkeep forecast --site FILE [--air FILE] [--from DATE --to DATE] [--readings FILE]
                   [--history FILE] --out FILE

Daily water temperature of one pond, with the tenth, fiftieth and ninetieth percentile. Without --air it is the
forecast from long-term normals alone; missing days are bridged from normals, which is said.

  --site FILE      JSON: latitude, longitude, elevationM, meanDepthM, areaM2, shadeFraction, timeZone;
                   optionally windMPerS, sunFraction
  --air FILE       CSV: date and tmin_c,tmax_c or tmean_c; optionally solar_mj_m2, wind_m_s, rh_pct, precip_mm
  --readings FILE  CSV: date,water_c. Day d uses readings before d
  --history FILE   CSV like --air, five whole years or more: the weather to come is drawn from them, not from normals
  --from, --to     first and last day, YYYY-MM-DD; default: those of the air file
  --out FILE       CSV: date,p10_c,p50_c,p90_c; - writes to the terminal

Example: tarnkeep forecast --site pond.json --air air.csv --out water.csv
`,
  async run(words, terminal) {
    const { values } = readOptions('forecast', words, OPTIONS);
    const site = required(values.site, '--site FILE');
    const out = required(values.out, '--out FILE');
    const file = (name: string | undefined) => name && path.resolve(terminal.workingDirectory, name);
    const { csv, notices } = runForecastFile({
      siteFile: path.resolve(terminal.workingDirectory, site),
      airFile: file(values.air),
      readingsFile: file(values.readings),
      historyFile: file(values.history),
      from: values.from,
      to: values.to,
      stations: loadStations(path.join(terminal.configDirectory, 'stations')),
    });
    for (const notice of notices) terminal.err(`${notice}\n`);
    if (out === '-') terminal.out(csv);
    else await writeWhole(path.resolve(terminal.workingDirectory, out), csv, terminal);
    return 0;
  },
};

function required(value: string | undefined, name: string): string {
  if (value === undefined) throw new UsageError(`${name} is missing. See tarnkeep forecast --help.`);
  return value;
}

/** A file that is there is whole: it gets its name when it has been written. */
async function writeWhole(file: string, text: string, terminal: Terminal): Promise<void> {
  try {
    await writeFile(`${file}.part`, text);
    await rename(`${file}.part`, file);
  } catch (error) {
    throw new CommandError(
      `${file} cannot be written (${(error as NodeJS.ErrnoException).code}). Name another with --out.`,
    );
  }
  terminal.err(`${file} written.\n`);
}
