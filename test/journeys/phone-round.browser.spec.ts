import { describe, expect, it } from '@jest/globals';
import { travelled } from './journey.js';
import { phoneRound } from './phone-round.journey.js';

describe('the round on a phone without signal', () => {
  it('closes three visits offline, outlives reload and a dead battery, and arrives at the office once', async () => {
    const { steps, fault } = await travelled(phoneRound);
    expect(fault).toBeNull();
    expect(JSON.parse(steps.at(-1)?.seen ?? '{}')).toMatchObject({
      visitsClosed: 3,
      visitsOnServer: 3,
      readingsOnServer: 12,
      photosOnServer: 1,
      duplicates: 0,
    });
  }, 180_000);
});
