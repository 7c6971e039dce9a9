import type { CareRule } from '../../../../core/care/care-rule.js';
import { civilDay } from '../../../../core/units/civil-day.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import { fullDate } from '../../../charts/show-date.js';
import { earlierLine } from '../leak-test/leak-test.view-model.js';
import type { FactLine } from './fact-line.js';
import type { PondPageData } from './pond-page-data.service.js';

export function contactLines({ record }: PondPageData): FactLine[] {
  return record.contacts.map((contact) => {
    const until = contact.endedOn ? `until ${fullDate(civilDay(contact.endedOn))}` : '';
    const mail = contact.endedOn
      ? ''
      : contact.email === null
        ? 'no email: on the call list'
        : contact.mailStoppedAt || !contact.getsMail
          ? 'wants no mail'
          : 'gets reminders';
    return {
      name: contact.name,
      detail: [contact.role, contact.email, contact.phone].filter(Boolean).join(', '),
      value: until || mail,
    };
  });
}

export function accessLines({ record: { pond } }: PondPageData): FactLine[] {
  const tap = pond.tapTotalChlorineMgPerL === null ? 'not measured' : `${pond.tapTotalChlorineMgPerL} mg/L`;
  const TAP = { chlorine: 'Chlorine', chloramine: 'Chloramine', well: 'Well', unknown: 'Not known' } as const;
  return [
    { name: 'Tap water', detail: TAP[pond.tapSource], value: pond.tapSource === 'well' ? 'no chlorine' : tap },
    ...(pond.accessNotes ? [{ name: 'Way in', detail: pond.accessNotes, value: '' }] : []),
    ...(pond.gateCode ? [{ name: 'Gate code', detail: '', value: pond.gateCode }] : []),
    ...(pond.hazards ? [{ name: 'Hazards', detail: pond.hazards, value: '' }] : []),
  ];
}

export function leakLine({ leakTests, record }: PondPageData, units: UnitSystem): FactLine | null {
  const newest = leakTests.at(-1);
  if (!newest) return null;
  const { name, detail } = earlierLine(newest, record.pond.timeZone, units);
  return { name: 'Leak test', detail: `${name}. ${detail}`, value: '' };
}

export function agreementLines({ record, company }: PondPageData, rules: ReadonlyMap<string, CareRule>): FactLine[] {
  const usual = {
    name: 'Work that either can do',
    detail: 'unless it says otherwise here',
    value: company.defaultDoneBy === 'company' ? 'our crew' : 'the homeowner',
  };
  return [
    usual,
    ...record.agreement.map(({ ruleId, doneBy, fromOn, untilOn }) => ({
      name: rules.get(ruleId)?.title ?? ruleId,
      detail: [fromOn && `from ${fullDate(civilDay(fromOn))}`, untilOn && `until ${fullDate(civilDay(untilOn))}`]
        .filter(Boolean)
        .join(' '),
      value: doneBy === 'company' ? 'our crew' : 'the homeowner',
    })),
  ];
}
