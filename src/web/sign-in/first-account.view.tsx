import { areaField, choiceField, textField } from '../forms/fields.js';
import type { FormFaults } from '../forms/form-faults.js';
import { page } from '../shell/layout.js';

export interface FirstAccountForm {
  readonly typed: Readonly<Record<string, string>>;
  readonly faults: FormFaults;
  readonly timeZones: readonly string[];
}

export function firstAccountPage({ typed, faults, timeZones }: FirstAccountForm): string {
  const at = (name: string) => ({ name, value: typed[name] ?? '', ...(faults[name] && { fault: faults[name] }) });
  return page({
    title: 'The first account',
    children: (
      <>
        <div class="head">
          <div>
            <h1>The first account</h1>
            <p class="lead">
              This installation is empty. It needs your company and one account owner; more people are added later.
            </p>
          </div>
        </div>
        {faults[''] ? (
          <p class="note act" role="alert" safe>
            {faults['']}
          </p>
        ) : (
          ''
        )}
        <form method="post" action="/first-account" class="narrow-form">
          <fieldset>
            <legend>
              Company<small>stands in every mail</small>
            </legend>
            <div>
              {textField({
                ...at('companyName'),
                label: 'Company name',
                width: 'c6',
                autocomplete: 'organization',
                required: true,
              })}
              {areaField({
                ...at('postalAddress'),
                label: 'Postal address',
                width: 'c6',
                required: true,
                hint: 'Printed at the foot of every mail: a commercial mail must carry it.',
              })}
              {textField({
                ...at('timeZone'),
                label: 'Time zone',
                width: 'c6',
                list: 'time-zones',
                required: true,
                hint: 'An IANA name, for example America/Chicago.',
              })}
              <datalist id="time-zones">
                {timeZones.map((zone) => (
                  <option value={zone} />
                ))}
              </datalist>
              {choiceField({
                name: 'units',
                label: 'Units',
                kind: 'radio',
                chosen: [typed.units ?? 'us'],
                ...(faults.units && { fault: faults.units }),
                options: [
                  { value: 'us', label: 'US gallons, feet, °F' },
                  { value: 'metric', label: 'Litres, metres, °C' },
                ],
              })}
            </div>
          </fieldset>
          <fieldset>
            <legend>
              You<small>the account owner</small>
            </legend>
            <div>
              {textField({ ...at('name'), label: 'Your name', width: 'c6', autocomplete: 'name', required: true })}
              {textField({
                ...at('email'),
                label: 'Email',
                type: 'email',
                width: 'c6',
                autocomplete: 'username',
                required: true,
              })}
              {textField({
                ...at('password'),
                value: '',
                label: 'Password',
                type: 'password',
                width: 'c6',
                autocomplete: 'new-password',
                required: true,
                hint: 'At least 8 characters. A few words you can remember are best.',
              })}
            </div>
          </fieldset>
          <p>
            <button type="submit" class="btn first">
              Make the account
            </button>
          </p>
        </form>
      </>
    ),
  });
}
