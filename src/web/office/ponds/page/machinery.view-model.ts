import type { CareTaskView } from '../../../../care-calendar/index.js';
import type { NotDue } from '../../../../core/care/care-plan.js';
import type { EquipmentKind } from '../../../../core/care/pond-facts.js';
import { type CircuitFlow, circuitFlow } from '../../../../core/hydraulics/pump-line.js';
import { type CivilDay, civilDay, monthOf, yearOf } from '../../../../core/units/civil-day.js';
import {
  figures,
  showFlow,
  showLength,
  showMinutes,
  showVolume,
  type UnitSystem,
} from '../../../../core/units/show.js';
import { LAMP_RATED_HOURS, lampOutputShare } from '../../../../core/uv/lamp.js';
import type { EquipmentEntity } from '../../../../ponds/index.js';
import { monthName } from '../../../charts/show-date.js';
import { EQUIPMENT_WORDS } from '../form/pond-form-words.js';

export interface MachineLine {
  readonly name: string;
  readonly detail: string;
  /** Share of its life that is used, or null where nobody knows. */
  readonly usedShare: number | null;
  readonly usedWords: string;
}

/** Kinds whose life the planner counts by a running load: the rule's task knows how far it has run. */
const COUNTED: Partial<Record<EquipmentKind, string>> = { 'uv-lamp': 'lamp-hours', aerator: 'aerator-days' };

/** The register with each machine's remaining life, as far as it can be known. */
export function machineLines(
  machines: readonly EquipmentEntity[],
  planned: { readonly tasks: readonly CareTaskView[]; readonly notDue: readonly NotDue[] },
  pond: { readonly volumeL: number },
  today: CivilDay,
  units: UnitSystem,
): MachineLine[] {
  return machines.map((machine) => {
    const life = countedLife(machine, planned.tasks) ?? ageLife(machine, today);
    const known =
      life?.words ?? [installedWords(machine), lampWords(machine, planned.notDue)].filter(Boolean).join('; ');
    return {
      name: nameWords(machine, units),
      detail: [...ratingWords(machine, pond, units), known].filter(Boolean).join('; '),
      usedShare: life?.usedShare ?? null,
      usedWords: life ? `${Math.round(life.usedShare * 100)} %` : '',
    };
  });
}

interface Life {
  readonly usedShare: number;
  readonly words: string;
}

function countedLife(machine: EquipmentEntity, tasks: readonly CareTaskView[]): Life | null {
  const load = COUNTED[machine.kind];
  if (!load) return null;
  const inputs = tasks
    .map(({ task }) => new Map(task.planned.reason.inputs.map(({ name, value }) => [name, value])))
    .find((named) => named.get('load') === load && (named.get('machine') ?? machine.name) === machine.name);
  const runUp = Number(inputs?.get('run-up'));
  const limit =
    load === 'lamp-hours'
      ? (machine.rated.lampRatedHours ?? Number(inputs?.get('limit') ?? LAMP_RATED_HOURS))
      : Number(inputs?.get('limit'));
  if (!Number.isFinite(runUp) || !(limit > 0)) return null;
  const unit = load === 'lamp-hours' ? 'h' : 'days';
  const renew = inputs?.get('reached-on');
  const when = typeof renew === 'number' ? `; renew ${monthYear(renew as CivilDay)}` : '';
  const light = load === 'lamp-hours' ? lightWords(runUp, limit) : '';
  return { usedShare: runUp / limit, words: `${figures(runUp)} of ${figures(limit)} ${unit}${light}${when}` };
}

/** The blue glow tells nothing; the hours do. */
function lightWords(lampRunHours: number, lampRatedHours: number): string {
  if (lampRunHours < 0 || lampRatedHours < 100) return '';
  return `, about ${Math.round(100 * lampOutputShare({ lampRunHours, lampRatedHours }))} % of its first light`;
}

function ageLife({ installedOn, rated }: EquipmentEntity, today: CivilDay): Life | null {
  if (installedOn === null || rated.serviceLifeDays === undefined) return null;
  const since = civilDay(installedOn);
  const ends = (since + rated.serviceLifeDays) as CivilDay;
  return {
    usedShare: Math.max(0, today - since) / rated.serviceLifeDays,
    words: `installed ${monthYear(since)}; renew ${monthYear(ends)}`,
  };
}

function nameWords({ kind, name, rated }: EquipmentEntity, units: UnitSystem): string {
  const kindWords = EQUIPMENT_WORDS[kind];
  const title =
    name === '' ? kindWords : name.toLowerCase().includes(kindWords.toLowerCase()) ? name : `${kindWords}, ${name}`;
  if (rated.flowLPerH !== undefined) return `${title}, ${showFlow(rated.flowLPerH, units)}`;
  if (rated.mediaVolumeL !== undefined) return `${title}, ${showVolume(rated.mediaVolumeL, units)}`;
  return rated.powerW === undefined ? title : `${title}, ${figures(rated.powerW)} W`;
}

function ratingWords(
  { kind, rated, warrantyUntil }: EquipmentEntity,
  { volumeL }: { volumeL: number },
  units: UnitSystem,
): string[] {
  const words: string[] = [];
  if (kind === 'pump') words.push(...circuitWords(circuitFlow(rated, rated.line), volumeL, units));
  if (rated.flowLPerH !== undefined && rated.powerW !== undefined) words.push(`${figures(rated.powerW)} W`);
  if (rated.mediaAreaM2PerM3 !== undefined) words.push(`${figures(rated.mediaAreaM2PerM3)} m² of surface to the m³`);
  if (warrantyUntil !== null) words.push(`warranty until ${monthYear(civilDay(warrantyUntil))}`);
  return words;
}

/** How often a pump moves the pond: by its working point where lift and pipe are known, else by its plate. */
function circuitWords(circuit: CircuitFlow | null, volumeL: number, units: UnitSystem): string[] {
  if (circuit === null) return [];
  if (circuit.flowLPerH === 0) return ['does not reach its outlet: the lift is more than its greatest height'];
  const once = `the pond once in ${showMinutes(Math.round((volumeL / circuit.flowLPerH) * 60))}`;
  if (circuit.point === null) return [`${once} by its plate`];
  const works = `moves ${showFlow(circuit.flowLPerH, units)} against ${showLength(circuit.point.headM, units)}, ${once}`;
  return circuit.point.isFast ? [works, 'too fast in its pipe: a wider one brings more'] : [works];
}

/** A lamp whose hours last longer than the calendar looks ahead has no task to read them from. */
function lampWords({ kind, rated }: EquipmentEntity, notDue: readonly NotDue[]): string {
  const lasts = notDue.some(({ ruleId, because }) => ruleId === 'uv-lamp-replacement' && because === 'beyond-horizon');
  return kind === 'uv-lamp' && lasts
    ? `its ${figures(rated.lampRatedHours ?? LAMP_RATED_HOURS)} h last beyond the coming year`
    : '';
}

function installedWords({ installedOn }: EquipmentEntity): string {
  return installedOn === null ? 'age not known' : `installed ${monthYear(civilDay(installedOn))}`;
}

function monthYear(day: CivilDay): string {
  return `${monthName(monthOf(day))} ${yearOf(day)}`;
}
