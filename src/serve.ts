import { createServer } from 'node:net';
import { NestFactory } from '@nestjs/core';
import { FirstAccountService } from './accounts/index.js';
import { appModule } from './app.module.js';
import { loadSettings, type Settings, SettingsError, type SettingsSources } from './config/index.js';
import { DEMO_LOADER, type DemoLoader } from './demo-loader.js';
import { createFoundation, type Foundation } from './foundation.js';
import { configureWeb } from './web/index.js';

type WebApplication = Parameters<typeof configureWeb>[0];

export interface ServeOptions {
  readonly sources: SettingsSources;
  /** No demo: a new database waits for its first account. */
  readonly isEmpty: boolean;
  /** One line for the person who started the program. */
  readonly print: (line: string) => void;
}

export interface RunningServer {
  readonly settings: Settings;
  readonly foundation: Foundation;
  readonly app: WebApplication;
  /** Takes no new work, ends what is under way, closes the database. */
  close(): Promise<void>;
}

/** Open answers get this long to end. */
const ANSWERS_END_WITHIN_MS = 4_000;
/** After this the process ends whatever is still open. */
const STOP_WITHIN_MS = 9_500;

/**
 * Starts everything and prints where it can be reached.
 * @throws SettingsError with one sentence for each setting that cannot be used, a port in use among them
 */
export async function serve({ sources, isEmpty, print }: ServeOptions): Promise<RunningServer> {
  const settings = loadSettings(sources);
  await requireFreePort(settings);
  const foundation = await createFoundation(settings);
  try {
    const app = await NestFactory.create<WebApplication>(appModule(foundation), {
      logger: foundation.logger,
      bodyParser: false,
      abortOnError: false,
    });
    configureWeb(app, settings);
    await app.init();
    const isNew = await app.get(FirstAccountService, { strict: false }).isNeeded();
    const demo = isEmpty ? null : await loadedDemo(app, isNew, print);
    await listen(app, settings);
    // Counted from the start of the process, so that loading the program is part of it.
    const seconds = (performance.now() / 1000).toFixed(1);
    print(`Tarnkeep is ready on ${settings.publicUrl} after ${seconds} s. Ctrl+C ends it.`);
    if (demo) await printSignIns(demo, print);
    else if (isNew) print('This installation is empty: the first page asks for the company and its first account.');
    return { settings, foundation, app, close: () => close(app, foundation) };
  } catch (error) {
    await foundation.database.close();
    throw error;
  }
}

/** Serves until SIGTERM or SIGINT, then ends cleanly; a second signal ends at once. Answers the exit code. */
export async function serveUntilStopped(options: ServeOptions): Promise<number> {
  const server = await serve(options);
  const { logger } = server.foundation;
  process.on('unhandledRejection', (reason) => logger.error(reason, 'process'));
  await new Promise<void>((stop) => {
    for (const signal of ['SIGTERM', 'SIGINT'] as const) {
      process.once(signal, () => {
        process.once(signal, () => process.exit(1));
        stop();
      });
    }
  });
  setTimeout(() => {
    logger.error(`not everything ended within ${STOP_WITHIN_MS} ms`, 'process');
    process.exit(1);
  }, STOP_WITHIN_MS).unref();
  await server.close();
  return 0;
}

async function close(app: WebApplication, foundation: Foundation): Promise<void> {
  const server = app.getHttpServer() as { closeAllConnections(): void };
  const timer = setTimeout(() => server.closeAllConnections(), ANSWERS_END_WITHIN_MS);
  try {
    await app.close();
  } finally {
    clearTimeout(timer);
    await foundation.database.close();
  }
}

/** The demo when it is there, loaded first where the database is new. */
async function loadedDemo(
  app: WebApplication,
  isNew: boolean,
  print: ServeOptions['print'],
): Promise<DemoLoader | null> {
  const demo = app.get<DemoLoader>(DEMO_LOADER, { strict: false });
  if (isNew) await demo.load(print);
  return (await demo.isLoaded()) ? demo : null;
}

async function printSignIns(demo: DemoLoader, print: ServeOptions['print']): Promise<void> {
  print('The demo company, signed in without typing:');
  for (const { who, url } of await demo.signIns()) print(`  ${who.padEnd(12)}${url}`);
}

async function listen(app: WebApplication, settings: Settings): Promise<void> {
  try {
    await app.listen(settings.port, settings.host);
  } catch (error) {
    throw listenFault(error, settings);
  }
}

/** Asked before anything is stored: loading the demo only to find the port taken would waste a minute. */
function requireFreePort(settings: Settings): Promise<void> {
  return new Promise((isFree, fail) => {
    const probe = createServer()
      .once('error', (error) => fail(listenFault(error, settings)))
      .listen(settings.port, settings.host, () => probe.close(() => isFree()));
  });
}

function listenFault(error: unknown, { host, port }: Settings): unknown {
  const { code } = error as NodeJS.ErrnoException;
  const advice: Readonly<Record<string, string>> = {
    EADDRINUSE: `port: ${port} on ${host} is in use by another program. Stop it, or choose another port, e.g. TARNKEEP_PORT=${port + 1}.`,
    EACCES: `port: ${port} may not be used by this user. Choose one above 1023, e.g. TARNKEEP_PORT=3000.`,
    EADDRNOTAVAIL: `host: ${host} is not an address of this machine. Use TARNKEEP_HOST=127.0.0.1.`,
  };
  const sentence = advice[code ?? ''];
  return sentence ? new SettingsError([sentence]) : error;
}
