/**
 * One process of the reminder soak: sweeps and delivers until it is killed, or until nothing is left to do. Started
 * with `folder port instant startedMs`; says "done" when every mail has come to rest.
 */
import { In } from 'typeorm';
import { CompaniesService } from '../../accounts/index.js';
import { MailDelivery, MailOutboxEntity, ReminderSweep } from '../../reminders/index.js';
import { digestServices } from './digest-services.js';
import { ShiftedClock } from './shifted-clock.js';

const [directory, port, at, startedMs] = process.argv.slice(2) as [string, string, string, string];
const clock = new ShiftedClock(at, Number(startedMs));
const services = await digestServices({ directory, smtpPort: Number(port), clock });
const { app, foundation } = services;
const sweep = app.get(ReminderSweep, { strict: false });
const delivery = app.get(MailDelivery, { strict: false });
const [company] = await app.get(CompaniesService, { strict: false }).all();

let isSwept = false;
// Mail leaves while the sweep still writes, as in the program.
void sweep.run().then(() => {
  isSwept = true;
});
for (;;) {
  const wasSwept = isSwept;
  await delivery.run();
  const open = await foundation.database
    .company(company!.id)
    .count(MailOutboxEntity, { state: In(['due', 'claimed', 'deferred', 'handing_over']) });
  if (wasSwept && open === 0) break;
  await new Promise((next) => setTimeout(next, 200));
}
await services.close();
process.stdout.write('done\n');
