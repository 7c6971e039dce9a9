import { readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';

const CSS = readFileSync('src/web/assets/css/tokens.css', 'utf8');

type Theme = 'light' | 'dark';
const THEMES: Readonly<Record<Theme, ReadonlyMap<string, string>>> = {
  light: tokensOf(/:root\s*\{([^}]*)\}/),
  dark: tokensOf(/:root\[data-theme="dark"\]\s*\{([^}]*)\}/),
};

function tokensOf(block: RegExp): ReadonlyMap<string, string> {
  const body = block.exec(CSS)?.[1] ?? '';
  return new Map(
    [...body.matchAll(/--([\w-]+):\s*(#[0-9A-Fa-f]{6})/g)].map((found) => [found[1] as string, found[2] as string]),
  );
}

/** Relative luminance, WCAG 2.x. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(theme: Theme, a: string, b: string): number {
  const [low, high] = [a, b].map((name) => luminance(THEMES[theme].get(name) as string)).sort((x, y) => x - y) as [
    number,
    number,
  ];
  return (high + 0.05) / (low + 0.05);
}

/** Cut down, not rounded: a promise of 7.0 must not rest on 6.96. */
const cutDown = (ratio: number) => Math.floor(ratio * 10) / 10;

// The ratios the look promises, text on ground, light and dark.
const PROMISED: readonly (readonly [text: string, ground: string, light: number, dark: number])[] = [
  ['ink', 'ground', 13.3, 14.4],
  ['ink', 'raised', 14.4, 12.9],
  ['ink', 'sunk', 11.7, 15.5],
  ['ink-2', 'ground', 7.9, 9.7],
  ['ink-2', 'raised', 8.6, 8.7],
  ['ink-2', 'sunk', 7.0, 10.4],
  ['ink-2', 'water-soft', 7.0, 7.3],
  ['ink-2', 'ochre-soft', 7.3, 7.6],
  ['ink-3', 'ground', 5.3, 6.4],
  ['ink-3', 'raised', 5.8, 5.8],
  ['water', 'ground', 8.5, 9.9],
  ['water', 'raised', 9.2, 8.9],
  ['water', 'water-soft', 7.5, 7.5],
  ['water', 'ochre-soft', 7.9, 7.7],
  ['on-water', 'water', 9.2, 9.5],
  ['on-water', 'water-deep', 12.2, 12.2],
  ['ochre-ink', 'ochre-soft', 7.7, 8.2],
  ['ochre-ink', 'ground', 8.4, 10.5],
  ['ochre-ink', 'raised', 9.1, 9.5],
  ['ink', 'ochre-soft', 12.3, 11.3],
  ['on-ochre', 'ochre', 7.3, 7.2],
  ['line-strong', 'ground', 3.6, 5.1],
  ['water-line', 'ground', 3.6, 5.2],
  ['ochre-line', 'ground', 4.2, 5.7],
];

describe('contrast of the colour tokens', () => {
  it.each(PROMISED)('of %s on %s is %s in light and %s in dark', (text, ground, light, dark) => {
    expect(cutDown(contrast('light', text, ground))).toBe(light);
    expect(cutDown(contrast('dark', text, ground))).toBe(dark);
  });

  it('is at least 7 for everything that is read, and 3 for edges that carry meaning', () => {
    for (const [text, ground] of PROMISED) {
      const least = text === 'ink-3' ? 4.5 : /line/.test(text) ? 3 : 7;
      for (const theme of ['light', 'dark'] as const)
        expect(contrast(theme, text, ground)).toBeGreaterThanOrEqual(least);
    }
  });

  it('is the same whether the dark theme is chosen or follows the system', () => {
    const bySystem = tokensOf(/prefers-color-scheme: dark\)\s*\{\s*:root:not\(\[data-theme="light"\]\)\s*\{([^}]*)\}/);
    expect(Object.fromEntries(bySystem)).toEqual(Object.fromEntries(THEMES.dark));
  });
});
