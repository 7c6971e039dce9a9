import type { CompanyEntity, Member } from '../../../accounts/index.js';
import type { DechlorinatorStrength } from '../../../core/care/care-plan.js';
import type { Applicability, CareRule, RuleParameter, Trigger } from '../../../core/care/care-rule.js';
import type { Option } from '../../forms/fields.js';
import type { FormFaults } from '../../forms/form-faults.js';

export interface SettingsModel {
  readonly company: Readonly<Record<string, string>>;
  readonly companyFaults: FormFaults;
  readonly dechlorinators: readonly Option[];
  readonly timeZones: readonly string[];
  readonly members: readonly MemberLine[];
  readonly newMember: Readonly<Record<string, string>>;
  readonly memberFaults: FormFaults;
  readonly roles: readonly Option[];
  /** [h] */
  readonly reportHoldHours: number;
  readonly rules: readonly RuleCard[];
}

export interface MemberLine {
  readonly personId: string;
  readonly name: string;
  readonly contact: string;
  readonly role: string;
  readonly signIn: string;
  readonly mayEnd: boolean;
}

export interface RuleCard {
  readonly id: string;
  readonly title: string;
  readonly doneBy: string;
  readonly due: readonly string[];
  readonly appliesTo: string;
  readonly reason: string;
  readonly source: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly value: string;
    readonly range: string;
    readonly provenance: string;
  }[];
}

export const ROLE_WORDS: Readonly<Record<Member['role'], string>> = {
  owner: 'account owner',
  office: 'office',
  technician: 'technician',
};

export function companyFields(company: CompanyEntity): Record<string, string> {
  const { name, postalAddress, replyToEmail, phone, units, timeZone, dechlorinatorId, defaultDoneBy } = company;
  return { name, postalAddress, replyToEmail, phone, units, timeZone, dechlorinatorId, defaultDoneBy };
}

export function dechlorinatorOptions(products: readonly DechlorinatorStrength[]): Option[] {
  return products.map(({ id, name, productMgPerMgChlorine, bindsAmmonia }) => ({
    value: id,
    label: `${name}: ${productMgPerMgChlorine} mg per mg of chlorine${bindsAmmonia ? ', binds ammonia' : ''}`,
  }));
}

/** Who may be ended by whom: an owner ends anybody but themselves, the office ends technicians and other office members. */
export function memberLines(
  members: readonly Member[],
  by: { readonly personId: string; readonly role: string },
): MemberLine[] {
  return members.map((member) => ({
    personId: member.personId,
    name: member.name,
    contact: [member.email, member.phone].filter(Boolean).join(', '),
    role: ROLE_WORDS[member.role],
    signIn: member.hasPassword ? 'signs in with a password' : 'has no password yet',
    mayEnd: member.personId !== by.personId && (by.role === 'owner' || member.role !== 'owner'),
  }));
}

/** The care rules as they stand, with every number's source. */
export function ruleCards(rules: readonly CareRule[]): RuleCard[] {
  return [...rules]
    .sort((a, b) => a.title.localeCompare(b.title, 'en'))
    .map((rule) => ({
      id: rule.id,
      title: rule.title,
      doneBy: doneByWords(rule),
      due: rule.anyOf.map((trigger) => triggerWords(trigger, rule.parameters)),
      appliesTo: appliesWords(rule.appliesTo),
      reason: rule.reason,
      source: rule.source,
      parameters: [...Object.entries(rule.parameters), ['time on site', rule.minutes] as const].map(
        ([name, parameter]) => ({
          name: parameterName(name),
          value: withUnit(parameter.value, parameter.unit),
          range: `${parameter.min} to ${withUnit(parameter.max, parameter.unit)}`,
          provenance: parameter.source ? `${parameter.provenance}: ${parameter.source}` : parameter.provenance,
        }),
      ),
    }));
}

function doneByWords({ neverHomeowner, audience, people }: CareRule): string {
  const who =
    neverHomeowner || audience === 'technician'
      ? 'The crew'
      : audience === 'homeowner'
        ? 'The homeowner'
        : 'Crew or homeowner, by agreement';
  return people === 2 ? `${who}, two people` : who;
}

function triggerWords(trigger: Trigger, parameters: CareRule['parameters']): string {
  const shown = (name: string | undefined) => (name ? parameterWords(parameters[name]) : '');
  switch (trigger.kind) {
    case 'crossing':
      return `when the 7-day mean of the water passes ${shown(trigger.threshold)}, ${trigger.direction}`;
    case 'accumulation':
      return `when ${words(trigger.load)} reach ${shown(trigger.limit)} since the last time`;
    case 'interval':
      return [
        trigger.fromRule ? `${shown(trigger.days)} after: ${words(trigger.fromRule)}` : `every ${shown(trigger.days)}`,
        ...(trigger.season ? ['counted only in season'] : []),
        ...(trigger.onlyIf ? [`only for ${appliesWords(trigger.onlyIf)}`] : []),
      ].join(', ');
    case 'event':
      return `${shown(trigger.afterDays)} after: ${words(trigger.ofRule ?? trigger.event)}`;
    case 'season':
      return `by the date of ${words(trigger.mark)} (${Math.round(trigger.probability * 100)} years in 100)`;
    case 'reading':
      return `when ${words(trigger.quantity)} is ${trigger.when} ${shown(trigger.limit)}`;
  }
}

function appliesWords(appliesTo: Applicability): string {
  const parts = Object.entries(appliesTo).map(([key, value]) => {
    const name = words(key);
    if (value === true) return name;
    if (value === false) return `no ${name}`;
    return `${name}: ${Array.isArray(value) ? value.map(words).join(' or ') : words(String(value))}`;
  });
  return parts.length === 0 ? 'every pond' : parts.join('; ');
}

function parameterWords(parameter: RuleParameter | undefined): string {
  return parameter ? withUnit(parameter.value, parameter.unit) : '';
}

function withUnit(value: number, unit: string): string {
  return unit === '' || unit === '-' ? String(value) : `${value.toLocaleString('en-US')} ${unit}`;
}

const UNIT_AT_THE_END =
  /(?<=[a-z])((Mg|G|Kg|Ml|L|Mm|Cm|M|M2|M3)?(N|Cl2|CaCO3)?Per(L|M2|M3|H|Kg|Day|S|KgDay|KgPerDay|M2Day)|C|Pct|Days|Mm|Cm|M|M2|M3|G|Kg|L|H|Min)$/;

/** A number's name without the unit that stands with its value: `warmAboveC` is "warm above", `actMgNPerL` "act". */
function parameterName(name: string): string {
  return words(name.replace(UNIT_AT_THE_END, ''));
}

/** `notLastingSeason`, `lamp-hours` and the like as plain words. */
function words(name: string): string {
  return name
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .replaceAll('-', ' ')
    .replace(/[A-Z](?![A-Z0-9])/g, (letter) => letter.toLowerCase());
}
