import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import packagedChromium from '@sparticuz/chromium';
import { build } from 'esbuild';
import { type Browser, chromium, type Page } from 'playwright-core';

const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--no-first-run',
];

/**
 * A real browser: the one of `CHROME_PATH`, else the packaged Chromium. Close it.
 * @throws Error that says what to install where the browser cannot start.
 */
export async function startBrowser(): Promise<Browser> {
  const executablePath = process.env.CHROME_PATH ?? (await packagedChromium.executablePath());
  try {
    return await chromium.launch({ executablePath, headless: true, args: ARGUMENTS });
  } catch (cause) {
    throw new Error(whatIsMissing(String((cause as Error).message), executablePath), { cause });
  }
}

function whatIsMissing(message: string, executablePath: string): string {
  const library = /error while loading shared libraries: (\S+?):/.exec(message)?.[1];
  if (library) {
    return `The browser of the tests lacks ${library}. Bring it with: apt-get install -y libnss3. Or set CHROME_PATH to a browser of this machine.`;
  }
  return `The browser ${executablePath} did not start. Set CHROME_PATH to a Chromium or Chrome of this machine. ${message.split('\n')[0]}`;
}

/** Scripts, styles and fonts as the build makes them, in a folder of their own. Remove it. */
export async function bundledAssets(
  scripts: readonly string[],
): Promise<{ directory: string; remove(): Promise<void> }> {
  const directory = await mkdtemp(path.join(tmpdir(), 'tarnkeep-assets-'));
  await build({
    entryPoints: ['src/web/assets/tarnkeep.css'],
    outdir: directory,
    bundle: true,
    external: ['/assets/*'],
    logLevel: 'error',
  });
  await build({
    entryPoints: Object.fromEntries(scripts.map((file) => [path.basename(file, '.client.ts'), file])),
    outdir: directory,
    bundle: true,
    format: 'iife',
    logLevel: 'error',
  });
  return { directory, remove: () => rm(directory, { recursive: true, force: true }) };
}

export type Theme = 'light' | 'dark';

/** A page of one width and theme, signed in where a session is given. */
export async function openPage(
  browser: Browser,
  given: { readonly url: string; readonly width: number; readonly theme: Theme; readonly session?: string | null },
): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: given.width, height: 900 },
    colorScheme: given.theme,
    // axe-core is put into the page by the test; the page's own policy is tested over HTTP.
    bypassCSP: true,
  });
  if (given.session) {
    await context.addCookies([{ name: 'tarnkeep_session', value: given.session, url: new URL(given.url).origin }]);
  }
  const page = await context.newPage();
  await page.goto(given.url);
  return page;
}

let axeSource: string | undefined;

/** What axe-core finds on a page, as `rule: element` lines; none is the aim. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  return axeFaults(page, {});
}

/** Text of less than seven to one (WCAG 1.4.6); wanted on the phone's pages only. */
export function enhancedContrastFaults(page: Page): Promise<string[]> {
  return axeFaults(page, { runOnly: ['color-contrast-enhanced'] });
}

async function axeFaults(page: Page, options: object): Promise<string[]> {
  axeSource ??= await readFile(createRequire(path.resolve('package.json')).resolve('axe-core/axe.min.js'), 'utf8');
  await page.evaluate(axeSource);
  return page.evaluate(async (asked) => {
    const { axe } = globalThis as unknown as {
      axe: { run(options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run(asked);
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  }, options);
}

/** Pixels by which a page is wider than its window; 0 where it can be read without going sideways. */
export function sidewaysOverflowPx(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}
