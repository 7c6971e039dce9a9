import { CompaniesService } from '../accounts/index.js';
import { MailHolds, WHOLE_SERVICE } from '../reminders/index.js';
import { COMPANY_OPTION, readOptions, SETTINGS_OPTIONS } from './options.js';
import { type Command, UsageError } from './terminal.js';
import { chosenCompany, withServices } from './with-services.js';

const OPTIONS = { ...SETTINGS_OPTIONS, ...COMPANY_OPTION } as const;
const ACTS = ['hold', 'release', 'status'] as const;

export const command: Command = {
  help: `tarnkeep mail hold|release|status [--company ID] [--data DIR]

Stops all mail, lets it go again, or says what is held. Without --company for the whole service. A mail whose text is
just being handed over still arrives; every other stops within seconds, whichever process would have sent it.

Hold mail before you start from a backup: what the copy holds as due may have been sent already. Then look at the
Messages page, and release it.

Example: tarnkeep mail hold
`,
  async run(words, terminal) {
    const act = ACTS.find((one) => one === words[0]);
    if (!act) throw new UsageError('mail needs a second word: hold, release or status. See tarnkeep mail --help.');
    const { values } = readOptions(`mail ${act}`, words.slice(1), OPTIONS);
    return withServices(terminal, values, async (services) => {
      const holds = services.get(MailHolds, { strict: false });
      const company = values.company === undefined ? null : await chosenCompany(services, values.company);
      const scope = company?.id ?? WHOLE_SERVICE;
      const whose = company?.name ?? 'the whole service';
      if (act === 'hold') {
        const isNew = await holds.hold(scope, 'paused');
        terminal.out(isNew ? `Mail of ${whose} is held.\n` : `Mail of ${whose} was held already.\n`);
      } else if (act === 'release') {
        const isReleased = await holds.release(scope);
        terminal.out(isReleased ? `Mail of ${whose} leaves again.\n` : `Mail of ${whose} was not held.\n`);
      } else {
        const names = new Map(
          (await services.get(CompaniesService, { strict: false }).all()).map((one) => [one.id, one]),
        );
        const standing = await holds.all();
        for (const { scope: held, because, heldAt } of standing) {
          terminal.out(
            `${held === WHOLE_SERVICE ? 'the whole service' : (names.get(held)?.name ?? held)}: ${because}, since ${heldAt}\n`,
          );
        }
        if (standing.length === 0) terminal.out('No mail is held.\n');
      }
      return 0;
    });
  },
};
