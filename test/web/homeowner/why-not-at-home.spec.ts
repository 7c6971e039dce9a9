import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { CareTaskEntity, PlanOutcomeEntity } from '../../../src/care-calendar/index.js';
import { linksIn, POND_ID, type ReminderStack, reminderStack } from '../../reminders/reminder-stack.js';

describe('why there is no task, on the page of a homeowner', () => {
  let stack: ReminderStack;
  let open: () => Promise<string>;
  beforeAll(async () => {
    stack = await reminderStack();
    await stack.app.listen(0, '127.0.0.1');
    const origin = `http://127.0.0.1:${(stack.app.getHttpServer().address() as AddressInfo).port}`;
    await stack.homeownersPond();
    await stack.sweep.run();
    const [link] = linksIn((await stack.mails())[0]?.plainText ?? '', 'my-pond');
    open = async () => (await fetch(`${origin}${link}`, { headers: { accept: 'text/html' } })).text();
  });
  afterAll(() => stack.close());

  const keep = (notDue: PlanOutcomeEntity['notDue']) =>
    stack.database.unitOfWork('test', () =>
      stack.database
        .company(stack.companyId)
        .update(PlanOutcomeEntity, { pondId: POND_ID }, { notDue, conflicts: [] } as never),
    );
  /** As the planner takes a task away. */
  const withdraw = (ruleId: string) =>
    stack.database.unitOfWork('test', () =>
      stack.database.company(stack.companyId).update(CareTaskEntity, { ruleId }, { state: 'CANCELLED' }),
    );

  it('says it in their words, of what is theirs and has no task, without sources', async () => {
    await keep([
      { ruleId: 'feed-stop', because: 'no-crossing', detail: '' },
      { ruleId: 'feed-stop-in-heat', because: 'no-turtles', detail: '' },
      { ruleId: 'uv-lamp-replacement', because: 'beyond-horizon', detail: '' },
    ]);
    expect(await open()).not.toContain('Why is there no');
    await withdraw('feed-stop');
    const text = await open();
    const told = /<details class="why gap" id="why-not-[\s\S]*?<\/details>/.exec(text)?.[0] ?? '';
    expect(told).toContain('Care of yours that has no date now');
    expect(told).toContain('The water is not expected to get that warm or that cold.');
    expect(told).not.toMatch(/The rule follows|UV lamp|turtles/);
    expect(text).toContain('data-read-out=');
  });

  it('is not there when nothing of theirs is missing', async () => {
    await keep([]);
    expect(await open()).not.toContain('Why is there no');
  });
});
