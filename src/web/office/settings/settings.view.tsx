import type { Actor } from '../../../accounts/index.js';
import { areaField, choiceField, selectField, textField } from '../../forms/fields.js';
import { formToken, page } from '../../shell/layout.js';
import type { MemberLine, RuleCard, SettingsModel } from './settings.view-model.js';

export function settingsPage(actor: Actor, model: SettingsModel, did: string | null): string {
  return page({
    title: 'Settings',
    actor,
    current: '/settings',
    undo: did ? { text: did } : null,
    children: (
      <>
        <div class="head">
          <div>
            <h1>Settings</h1>
            <p class="lead">
              <span safe>{actor.companyName}</span>: the company, its people, and the rules that make the calendars.
            </p>
          </div>
          <nav class="acts" aria-label="On this page">
            <a class="btn" href="#company">
              Company
            </a>
            <a class="btn" href="#people">
              People
            </a>
            <a class="btn" href="#rules">
              Care rules
            </a>
          </nav>
        </div>
        {companyForm(actor, model)}
        {reports(actor, model.reportHoldHours)}
        {people(actor, model)}
        {rules(model.rules)}
      </>
    ),
  });
}

function companyForm(actor: Actor, model: SettingsModel): JSX.Element {
  const at = partsOf(model.company, model.companyFaults);
  return (
    <form method="post" action="/settings/company#company" class="settings" id="company">
      {formToken(actor)}
      {faultNote(model.companyFaults[''])}
      <fieldset>
        <legend>
          Company<small>as it stands in every mail</small>
        </legend>
        <div>
          {textField({ ...at('name'), label: 'Company name', width: 'c6', required: true })}
          {areaField({ ...at('postalAddress'), label: 'Postal address', width: 'c6', required: true })}
          {textField({ ...at('replyToEmail'), label: 'Answers go to', type: 'email', width: 'c3' })}
          {textField({ ...at('phone'), label: 'Phone', type: 'tel', width: 'c3' })}
        </div>
      </fieldset>
      <fieldset>
        <legend>Figures</legend>
        <div>
          {choiceField({
            name: 'units',
            label: 'Units',
            kind: 'radio',
            chosen: [model.company.units ?? ''],
            options: [
              { value: 'us', label: 'US gallons, feet, °F' },
              { value: 'metric', label: 'Litres, metres, °C' },
            ],
          })}
          {textField({ ...at('timeZone'), label: 'Time zone', width: 'c6', list: 'time-zones', required: true })}
          <datalist id="time-zones">
            {model.timeZones.map((zone) => (
              <option value={zone} />
            ))}
          </datalist>
          {selectField({
            ...at('dechlorinatorId'),
            label: 'Dechlorinator',
            width: 'c6',
            options: model.dechlorinators,
            hint: 'Every dose is printed for this strength. A label that asks for more goes before it.',
          })}
          {choiceField({
            name: 'defaultDoneBy',
            label: 'Work that either can do falls to',
            kind: 'radio',
            chosen: [model.company.defaultDoneBy ?? ''],
            options: [
              { value: 'company', label: 'Our crew' },
              { value: 'homeowner', label: 'The homeowner' },
            ],
            hint: 'Each pond’s care agreement may say otherwise.',
          })}
        </div>
      </fieldset>
      <p>
        <button type="submit" class="btn first">
          Save the company
        </button>
      </p>
    </form>
  );
}

function reports(actor: Actor, holdHours: number): JSX.Element {
  return (
    <form method="post" action="/settings/visit-reports#reports" class="settings" id="reports">
      {formToken(actor)}
      <fieldset>
        <legend>
          Visit reports<small>to homeowners</small>
        </legend>
        <div>
          {selectField({
            name: 'reportHoldHours',
            label: 'A report leaves',
            value: String(holdHours),
            width: 'c6',
            options: HOLD_CHOICES,
            hint: 'While it waits it stands in This week: look at it, send it at once, or correct the visit first.',
          })}
          <p class="c6">
            <button type="submit" class="btn">
              Save
            </button>
          </p>
        </div>
      </fieldset>
    </form>
  );
}

const HOLD_CHOICES = [
  { value: '0', label: 'as soon as the visit is closed' },
  { value: '2', label: 'two hours after the visit is closed' },
  { value: '12', label: '12 hours after the visit is closed' },
  { value: '24', label: 'a day after the visit is closed' },
  { value: '72', label: 'three days after the visit is closed' },
];

function people(actor: Actor, model: SettingsModel): JSX.Element {
  const at = partsOf(model.newMember, model.memberFaults);
  return (
    <section id="people" aria-labelledby="people-title">
      <h2 id="people-title">People</h2>
      <ul class="rows people">{model.members.map((member) => memberRow(actor, member))}</ul>
      <form method="post" action="/settings/people#people" class="settings">
        {formToken(actor)}
        {faultNote(model.memberFaults[''])}
        <fieldset>
          <legend>
            Add a person<small>to the office or the crew</small>
          </legend>
          <div>
            {textField({ ...at('name'), label: 'Name', width: 'c3', required: true, autocomplete: 'off' })}
            {selectField({ ...at('role'), label: 'Role', width: 'c3', options: model.roles })}
            {textField({
              ...at('email'),
              label: 'Email',
              type: 'email',
              width: 'c3',
              required: true,
              autocomplete: 'off',
            })}
            {textField({ ...at('phone'), label: 'Phone', type: 'tel', width: 'c3', autocomplete: 'off' })}
            {textField({
              ...at('password'),
              value: '',
              label: 'First password',
              type: 'password',
              width: 'c6',
              required: true,
              autocomplete: 'new-password',
              hint: 'At least 8 characters. Tell it to them yourself. Somebody who already signs in elsewhere keeps their own.',
            })}
            <p class="c6">
              <button type="submit" class="btn">
                Add this person
              </button>
            </p>
          </div>
        </fieldset>
      </form>
    </section>
  );
}

function memberRow(actor: Actor, member: MemberLine): JSX.Element {
  return (
    <li>
      <div>
        <span class="t" safe>
          {member.name}
        </span>
        <p class="fine" safe>
          {member.contact}
        </p>
      </div>
      <div class="by">
        <b safe>{member.role}</b>
        <span safe>{member.signIn}</span>
      </div>
      {member.mayEnd ? (
        <details class="confirm">
          <summary class="btn" aria-label={`End membership of ${member.name}`}>
            End membership
          </summary>
          <form method="post" action={`/settings/people/${member.personId}/ending#people`}>
            {formToken(actor)}
            <p class="fine">They are signed out at once. What they did stays in the history.</p>
            <button type="submit" class="btn" aria-label={`Yes, end it: membership of ${member.name}`}>
              Yes, end it
            </button>
          </form>
        </details>
      ) : (
        <span />
      )}
    </li>
  );
}

function rules(cards: readonly RuleCard[]): JSX.Element {
  return (
    <section id="rules" aria-labelledby="rules-title">
      <div class="sec">
        <h2 id="rules-title">Care rules</h2>
        <span class="fine">
          Read only. Every number with its range and where it comes from; the formulas are in{' '}
          <a href="/how-it-is-computed">How it is computed</a>.
        </span>
      </div>
      {cards.length === 0 ? (
        <p class="empty">
          <b>No rules are loaded.</b>They stand in config/care-rules, one file a rule.
        </p>
      ) : (
        cards.map(ruleCard)
      )}
    </section>
  );
}

function ruleCard(card: RuleCard): JSX.Element {
  return (
    <details class="rule" id={`rule-${card.id}`}>
      <summary>
        <span class="t" safe>
          {card.title}
        </span>{' '}
        <span class="fine" safe>
          {card.doneBy}
        </span>
      </summary>
      <p safe>{card.reason}</p>
      <dl class="facts gap">
        <dt>Due</dt>
        <dd safe>{card.due.join('; or ')}</dd>
        <dt>Applies to</dt>
        <dd safe>{card.appliesTo}</dd>
        <dt>Follows</dt>
        <dd safe>{card.source}</dd>
      </dl>
      <section class="scroll gap" tabindex="0" aria-label={`Numbers of: ${card.title}`}>
        <table class="list">
          <thead>
            <tr>
              <th scope="col">Number</th>
              <th scope="col">Value</th>
              <th scope="col">May be</th>
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            {card.parameters.map((parameter) => (
              <tr>
                <th scope="row" safe>
                  {parameter.name}
                </th>
                <td class="num" safe>
                  {parameter.value}
                </td>
                <td class="num" safe>
                  {parameter.range}
                </td>
                <td safe>{parameter.provenance}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

function faultNote(fault: string | undefined): JSX.Element | '' {
  if (!fault) return '';
  return (
    <p class="note act" role="alert" safe>
      {fault}
    </p>
  );
}

function partsOf(values: Readonly<Record<string, string>>, faults: Readonly<Record<string, string>>) {
  return (name: string) => ({ name, value: values[name] ?? '', ...(faults[name] && { fault: faults[name] }) });
}
