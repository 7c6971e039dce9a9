import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import type { BrowserContext } from 'playwright-core';

const SCRIPTS = ['round', 'visit', 'phone-worker'].map((name) => `src/web/technician/${name}.client.ts`);
const FONTS = [
  '@fontsource/petrona/files/petrona-latin-600-normal.woff2',
  '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2',
];

/** Bytes of these pages with style sheet and scripts as the build makes them, compressed, and the fonts. */
export async function firstLoadBytes(pages: readonly string[]): Promise<number> {
  const { outputFiles } = await build({
    entryPoints: ['src/web/assets/tarnkeep.css', ...SCRIPTS],
    ...{ outdir: 'none', bundle: true, minify: true, format: 'iife', target: 'es2020', write: false },
    external: ['/assets/*'],
  });
  const texts = [...pages, ...outputFiles.map(({ text }) => text)];
  const fonts = await Promise.all(FONTS.map((font) => readFile(path.join('node_modules', font))));
  return (
    texts.reduce((sum, text) => sum + gzipSync(text, { level: 6 }).length, 0) +
    fonts.reduce((sum, font) => sum + font.length, 0)
  );
}

/** Milliseconds from the address to a round that is read and worked on, on a processor a quarter as fast. */
export async function coldStartMs(context: BrowserContext, url: string): Promise<number> {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(url);
  await page.getByRole('heading', { level: 1 }).waitFor();
  const ms = await page.evaluate(() => {
    const [navigation] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[];
    return navigation?.domContentLoadedEventEnd ?? Number.POSITIVE_INFINITY;
  });
  await page.close();
  return Math.round(ms);
}
