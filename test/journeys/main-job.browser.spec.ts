import { describe, expect, it } from '@jest/globals';
import { travelled } from './journey.js';
import { mainJob } from './main-job.journey.js';

describe('the main job', () => {
  it('runs from a list of ponds to mail, a visit and a calendar that has learned', async () => {
    const { steps, fault } = await travelled(mainJob);
    expect(fault).toBeNull();
    expect(steps.map(({ step }) => step)).toEqual([
      'a list of ponds comes in through the page',
      'each pond has the calendar of its own climate',
      'each homeowner gets one digest, at eight where they live',
      'one press on "done" in the mail',
      'the office plans and publishes a visit',
      'the technician closes it on a phone',
      'the calendar counts from what was done',
      'the homeowner reads what was done',
    ]);
  }, 180_000);
});
