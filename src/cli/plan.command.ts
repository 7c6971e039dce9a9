import type { INestApplicationContext } from '@nestjs/common';
import { CareCalendarService } from '../care-calendar/index.js';
import { CARE_RULES } from '../config/index.js';
import type { CarePlan, PlannedTask, Quantity } from '../core/care/care-plan.js';
import type { CareRule } from '../core/care/care-rule.js';
import { type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { PondsService } from '../ponds/index.js';
import { COMPANY_OPTION, readOptions, SETTINGS_OPTIONS } from './options.js';
import { Progress } from './progress.js';
import { type Command, type Terminal, UsageError } from './terminal.js';
import { chosenCompany, withServices } from './with-services.js';

const OPTIONS = {
  ...SETTINGS_OPTIONS,
  ...COMPANY_OPTION,
  pond: { type: 'string' },
  all: { type: 'boolean', default: false },
  'as-of': { type: 'string' },
  json: { type: 'boolean', default: false },
} as const;

export const command: Command = {
  help: `tarnkeep plan (--pond ID | --all) [--as-of DATE] [--json] [--company ID] [--data DIR]

Plans ponds anew, stores their calendars and prints them. With --as-of it prints what would be planned on that day with
what was known then, and stores nothing.

  --pond ID      one pond; the id stands in the address of its page
  --all          every active pond of the company
  --as-of DATE   YYYY-MM-DD
  --json         one JSON object in place of the text

Example: tarnkeep plan --all --as-of 2027-03-01
`,
  async run(words, terminal) {
    const { values } = readOptions('plan', words, OPTIONS);
    if ((values.pond === undefined) !== values.all) {
      throw new UsageError('Name either --pond ID or --all. See tarnkeep plan --help.');
    }
    const asOf = values['as-of'] === undefined ? undefined : dayOf(values['as-of']);
    return withServices(terminal, values, async (services) => {
      const company = await chosenCompany(services, values.company);
      const ponds = services.get(PondsService, { strict: false });
      const pondIds = values.pond === undefined ? await ponds.activeIds(company.id) : [values.pond];
      const plans = await plansOf(services, { companyId: company.id, pondIds, asOf }, terminal);
      const titles = new Map(
        services.get<readonly CareRule[]>(CARE_RULES, { strict: false }).map((rule) => [rule.id, rule.title]),
      );
      const shown = plans.planned.map((one) => ({ ...one, titles }));
      terminal.out(
        values.json
          ? `${JSON.stringify({ ponds: shown.map(asJson), failed: plans.failed }, null, 2)}\n`
          : shown.map(asText).join('\n'),
      );
      for (const { pondId, reason } of plans.failed) terminal.err(`${pondId} could not be planned: ${reason}\n`);
      return plans.failed.length > 0 ? 1 : 0;
    });
  },
};

interface Wanted {
  readonly companyId: string;
  readonly pondIds: readonly string[];
  readonly asOf: CivilDay | undefined;
}

interface Planned {
  readonly pondName: string;
  readonly plan: CarePlan;
}

type Shown = Planned & { readonly titles: ReadonlyMap<string, string> };

async function plansOf(services: INestApplicationContext, wanted: Wanted, terminal: Terminal) {
  const calendar = services.get(CareCalendarService, { strict: false });
  const ponds = services.get(PondsService, { strict: false });
  const progress = new Progress(terminal);
  const planned: Planned[] = [];
  const failed: { pondId: string; reason: string }[] = [];
  for (const [i, pondId] of wanted.pondIds.entries()) {
    try {
      const { pond } = await ponds.get(wanted.companyId, pondId);
      if (wanted.asOf === undefined) await calendar.replan(wanted.companyId, pondId);
      const { plan } = await calendar.planAsOf(wanted.companyId, pondId, wanted.asOf);
      planned.push({ pondName: pond.name, plan });
    } catch (error) {
      failed.push({ pondId, reason: (error as Error).message });
    }
    if (wanted.pondIds.length > 1) progress.show('Ponds planned', i + 1, wanted.pondIds.length);
  }
  progress.end();
  return { planned, failed };
}

function dayOf(text: string): CivilDay {
  try {
    return civilDay(text);
  } catch {
    throw new UsageError(`--as-of: ${text} is not a date. Write it as YYYY-MM-DD, for example 2027-03-01.`);
  }
}

function asText({ pondName, plan, titles }: Shown): string {
  const head = `${pondName} (${plan.pondId}), as of ${isoDateOf(plan.today)}\n`;
  if (plan.tasks.length === 0) return `${head}  nothing is due within the horizon\n`;
  const lines = plan.tasks.map((task) => {
    const { earliest, due, latest } = task.window;
    const title = titles.get(task.ruleId) ?? task.ruleId;
    const span = `${isoDateOf(earliest)} to ${isoDateOf(latest)}`;
    const amounts = task.quantities.map(amountText).join('; ');
    return `  ${isoDateOf(due)}  (${span})  ${task.doneBy.padEnd(11)}${title}${amounts && `: ${amounts}`}`;
  });
  return `${head}${lines.join('\n')}\n`;
}

function amountText({ amount, unit, of, per }: Quantity): string {
  return `${amount} ${unit} ${of}${per === 'once' ? '' : ` ${per.replace('-', ' ')}`}`;
}

function asJson({ pondName, plan, titles }: Shown) {
  const { notDue, conflicts, findings } = plan;
  const tasks = plan.tasks.map((task) => taskJson(task, titles.get(task.ruleId)));
  return { pondId: plan.pondId, name: pondName, asOf: isoDateOf(plan.today), tasks, notDue, conflicts, findings };
}

/** A planned task with its dates as dates. */
function taskJson(task: PlannedTask, title: string | undefined) {
  const { window, ...rest } = task;
  const dates = {
    earliestOn: isoDateOf(window.earliest),
    dueOn: isoDateOf(window.due),
    latestOn: isoDateOf(window.latest),
  };
  return { title: title ?? task.ruleId, ...dates, ...rest };
}
