import type { NotDue } from './care-plan.js';
import type { Applicability, CareRule } from './care-rule.js';
import { isInRunIn, livingStock } from './living-stock.js';
import type { PondFacts, StockGroup } from './pond-facts.js';
import { stockingLevel } from './stocking-level.js';

type Because = NotDue['because'];

/** A volume known worse than this is measured before anything is dosed by it (common practice, ruling 26). [%] */
const UNCERTAIN_ABOVE_PCT = 15;

/** Why a rule does not apply to a pond, or null when it does. The first missing thing is named. */
export function notApplicable(rule: CareRule, pond: PondFacts): NotDue | null {
  if (rule.optIn && !pond.agreement.some((term) => term.ruleId === rule.id)) {
    return { ruleId: rule.id, because: 'not-chosen', detail: '' };
  }
  const found = misfit(rule.appliesTo, pond);
  return found && { ruleId: rule.id, ...found };
}

/** What of a description a pond does not meet, or null when it meets all of it. */
export function misfit(asked: Applicability, pond: PondFacts): { because: Because; detail: string } | null {
  for (const [key, check] of CHECKS) {
    if (asked[key] === undefined) continue;
    const found = check(asked, pond);
    if (found) return found;
  }
  return null;
}

type Check = (asked: Applicability, pond: PondFacts) => { because: Because; detail: string } | null;

const CHECKS: readonly (readonly [keyof Applicability, Check])[] = [
  ['equipment', (asked, pond) => equipmentMissing(asked, pond)],
  ['withoutEquipment', (asked, pond) => equipmentPresent(asked, pond)],
  ['winterClass', (asked, pond) => otherClimate(asked, pond)],
  ['heated', (asked, pond) => differs(asked.heated, hasEquipment(pond, 'heater'), 'heated', 'not-this-equipment')],
  ['tap', (asked, pond) => (asked.tap?.includes(pond.tap.source) ? null : no('not-this-tap', pond.tap.source))],
  ['inRunIn', (asked, pond) => differs(asked.inRunIn, isInRunIn(pond), 'in-run-in', 'not-in-run-in')],
  [
    'livestock',
    (asked, pond) =>
      differs(
        asked.livestock,
        hasStock(pond, () => true),
        'nothing-to-count',
        'no-livestock',
      ),
  ],
  ['fish', (asked, pond) => differs(asked.fish, hasStock(pond, isFish), 'nothing-to-count', 'no-fish')],
  ['turtles', (asked, pond) => differs(asked.turtles, hasStock(pond, isTurtle), 'nothing-to-count', 'no-turtles')],
  [
    'stocking',
    (asked, pond) => (asked.stocking === stockingLevel(pond) ? null : no('not-this-stocking', stockingLevel(pond))),
  ],
  ['koi', (asked, pond) => differs(asked.koi, hasStock(pond, isKoi), 'not-this-stocking', 'not-this-stocking')],
  [
    'volumeUncertain',
    (asked, pond) =>
      differs(asked.volumeUncertain, pond.volumeSigmaPct > UNCERTAIN_ABOVE_PCT, 'nothing-to-count', 'nothing-to-count'),
  ],
  ['inStages', (asked, pond) => differs(asked.inStages, isInStages(pond), 'in-stages', 'all-stocked')],
  ['plants', (asked, pond) => (asked.plants?.some((kind) => pond.plants.includes(kind)) ? null : no('no-plants'))],
  ['treesNear', (asked, pond) => differs(asked.treesNear, pond.treesNear, 'nothing-to-count', 'no-trees')],
  ['waterfall', (asked, pond) => differs(asked.waterfall, pond.waterfall, 'nothing-to-count', 'no-waterfall')],
];

function no(because: Because, detail = ''): { because: Because; detail: string } {
  return { because, detail };
}

/** A rule that asks for true or false: the reason when the pond has it though it must not, or lacks it. */
function differs(asked: boolean | undefined, has: boolean, whenPresent: Because, whenAbsent: Because) {
  return asked === has ? null : no(has ? whenPresent : whenAbsent);
}

function equipmentMissing(asked: Applicability, pond: PondFacts) {
  const kinds = asked.equipment ?? [];
  return kinds.some((kind) => hasEquipment(pond, kind)) ? null : no('not-this-equipment', kinds.join(', '));
}

function equipmentPresent(asked: Applicability, pond: PondFacts) {
  const present = asked.withoutEquipment?.find((kind) => hasEquipment(pond, kind));
  return present ? no('has-equipment', present) : null;
}

function otherClimate(asked: Applicability, pond: PondFacts) {
  if (asked.winterClass?.includes(pond.winterClass)) return null;
  return no(pond.winterClass === 'W0' ? 'no-frost-climate' : 'not-this-climate', pond.winterClass);
}

export function hasEquipment(pond: PondFacts, kind: PondFacts['equipment'][number]['kind']): boolean {
  return pond.equipment.some((machine) => machine.kind === kind);
}

function isTurtle(group: StockGroup): boolean {
  return group.species === 'slider-turtle';
}

function isKoi(group: StockGroup): boolean {
  return group.species === 'koi';
}

function isInStages(pond: PondFacts): boolean {
  return !isInRunIn(pond) && (pond.stockedShare ?? 1) < 1;
}

function isFish(group: StockGroup): boolean {
  return !isTurtle(group);
}

function hasStock(pond: PondFacts, kind: (group: StockGroup) => boolean): boolean {
  return livingStock(pond).some((group) => group.count > 0 && kind(group));
}
