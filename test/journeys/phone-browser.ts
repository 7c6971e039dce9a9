import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import packagedChromium from '@sparticuz/chromium';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

const ARGUMENTS = ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'];
const PHONE = { width: 390, height: 844 };

/**
 * A browser with a folder of its own, which can be killed like a phone whose battery ends and started again with what it
 * had saved. Remove it.
 */
export class PhoneBrowser {
  private process: ChildProcess | null = null;
  private browser: Browser | null = null;

  private constructor(
    private readonly directory: string,
    private readonly session: { readonly url: string; readonly token: string },
  ) {}

  static async create(session: { readonly url: string; readonly token: string }): Promise<PhoneBrowser> {
    return new PhoneBrowser(await mkdtemp(path.join(tmpdir(), 'tarnkeep-phone-')), session);
  }

  /** Starts the program and opens a page of a phone's size, signed in, with or without signal. */
  async start(options: { readonly isOffline?: boolean } = {}): Promise<Page> {
    const executable = process.env.CHROME_PATH ?? (await packagedChromium.executablePath());
    const started = spawn(
      executable,
      [...ARGUMENTS, `--user-data-dir=${this.directory}`, '--remote-debugging-port=0', 'about:blank'],
      { stdio: ['ignore', 'ignore', 'pipe'] },
    );
    this.process = started;
    this.browser = await chromium.connectOverCDP(await addressOf(started));
    const context = this.context();
    await context.addCookies([{ name: 'tarnkeep_session', value: this.session.token, url: this.session.url }]);
    await context.setOffline(options.isOffline ?? false);
    const page = context.pages()[0] ?? (await context.newPage());
    await page.setViewportSize(PHONE);
    return page;
  }

  context(): BrowserContext {
    const context = this.browser?.contexts()[0];
    if (!context) throw new Error('The browser of the phone is not started.');
    return context;
  }

  /** The battery ends: nobody is told, nothing is written any more. */
  async kill(): Promise<void> {
    const { process: running } = this;
    if (!running || running.exitCode !== null) return;
    const ended = new Promise((resolve) => running.once('exit', resolve));
    running.kill('SIGKILL');
    await ended;
    await this.browser?.close().catch(() => {});
    this.process = null;
    this.browser = null;
  }

  async remove(): Promise<void> {
    await this.kill();
    // Its own children may write for a moment longer.
    await rm(this.directory, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  }
}

function addressOf(started: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    started.stderr?.on('data', (part: Buffer) => {
      said += part.toString();
      const address = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (address) resolve(address);
    });
    started.once('exit', () => reject(new Error(`The browser of the phone did not start. ${said.slice(0, 400)}`)));
  });
}
