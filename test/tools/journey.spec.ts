import { spawnSync } from 'node:child_process';
import { describe, expect, it } from '@jest/globals';

describe('the tool that takes a journey', () => {
  it.each([[[]], [['elsewhere']]])('names the journeys there are, and fails, when asked for %j', (asked) => {
    const { status, stdout, stderr } = spawnSync(process.execPath, ['src/tools/journey.mjs', ...asked]);
    expect(status).toBe(1);
    expect(stdout.toString()).toBe('');
    expect(stderr.toString()).toBe('Which journey? There is: main, phone.\n');
  });
});
