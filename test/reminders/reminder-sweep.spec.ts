import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { type MailServer, startMailServer } from './mail-server.js';
import { asked, linksIn, type ReminderStack, reminderStack } from './reminder-stack.js';

describe('a', () => {
  let server: MailServer;
  let stack: ReminderStack;
  beforeEach(async () => {
    server = await startMailServer();
    stack = await reminderStack({
      smtp: { host: '127.0.0.1', port: server.port, secure: false, user: null, password: null },
    });
  });
  afterEach(async () => {
    await stack.close();
    await server.close();
  });
  it('b', async () => {
    const t = Date.now();
    const pondId = await stack.homeownersPond();
    console.log('create', Date.now() - t);
    const tasks = await stack.calendar.tasksOf(stack.companyId, pondId);
    console.log(
      tasks
        .map((v) =>
          [
            v.rule.id,
            v.task.doneBy,
            v.task.consequence,
            v.task.routineLine,
            v.task.earliestOn,
            v.task.dueOn,
            v.task.latestOn,
          ].join(' '),
        )
        .join('\n'),
    );
    const t2 = Date.now();
    const o = await stack.sweep.run();
    console.log(Date.now() - t2, o.digests, o.urgent, o.nothingDue, o.failed, o.toCall);
    console.log(JSON.stringify((await stack.mails()).map((m) => [m.state, m.subject, m.lastReply])));
    console.log(o.mails[0]?.plainText);
    console.log(await stack.delivery.run());
    expect(server.received.length).toBe(1);
    (await import('node:fs')).writeFileSync('/tmp/digest.html', (await stack.mails())[0]!.html);
  });
});
