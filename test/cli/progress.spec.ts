import { describe, expect, it } from '@jest/globals';
import { Progress } from '../../src/cli/progress.js';
import type { Terminal } from '../../src/cli/terminal.js';

function watched(isInteractive: boolean) {
  const spoken: string[] = [];
  let nowMs = 0;
  const terminal = { isInteractive, err: (text: string) => spoken.push(text) } as unknown as Terminal;
  return { progress: new Progress(terminal, () => nowMs), spoken, wait: (ms: number) => (nowMs += ms) };
}

describe('Progress', () => {
  it('speaks a line every few seconds where nobody watches, and the last one always', () => {
    const { progress, spoken, wait } = watched(false);
    for (let done = 1; done <= 100; done++) {
      progress.show('Ponds planned', done, 100);
      wait(100);
    }
    expect(spoken).toEqual(['Ponds planned: 1 of 100\n', 'Ponds planned: 51 of 100\n', 'Ponds planned: 100 of 100\n']);
  });

  it('draws one line that changes where somebody watches', () => {
    const { progress, spoken, wait } = watched(true);
    for (const done of [0, 5, 10]) {
      progress.show('Ponds checked', done, 10);
      wait(200);
    }
    expect(spoken).toEqual([
      `\rPonds checked ${'░'.repeat(24)} 0 of 10`,
      `\rPonds checked ${'█'.repeat(12)}${'░'.repeat(12)} 5 of 10`,
      `\rPonds checked ${'█'.repeat(24)} 10 of 10`,
      '\n',
    ]);
  });

  it('begins a line of its own for the next piece of work, and leaves none open', () => {
    const { progress, spoken } = watched(true);
    progress.show('Ponds checked', 1, 2);
    progress.show('Ponds saved', 0, 0);
    progress.end();
    expect(spoken.join('')).toBe(
      `\rPonds checked ${'█'.repeat(12)}${'░'.repeat(12)} 1 of 2\n\rPonds saved ${'█'.repeat(24)} 0 of 0\n`,
    );
  });
});
