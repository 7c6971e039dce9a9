/** What every field of a form has: a label above, a unit inside, a hint or a fault below. */
export interface FieldParts {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly hint?: string;
  /** What is wrong with it and what would be right. */
  readonly fault?: string;
  /** Columns of the six-column grid. */
  readonly width?: 'c2' | 'c3' | 'c4' | 'c6';
  readonly required?: boolean;
}

export interface TextFieldParts extends FieldParts {
  readonly unit?: string;
  readonly type?: 'text' | 'email' | 'password' | 'date' | 'datetime-local' | 'tel' | 'search';
  readonly inputmode?: 'decimal' | 'numeric' | 'text';
  readonly autocomplete?: string;
  /** Id of a `datalist`. */
  readonly list?: string;
}

export interface Option {
  readonly value: string;
  readonly label: string;
}

/** Id of a field's control: its name, without signs that CSS and labels read otherwise. */
export function fieldId(name: string): string {
  return `f-${name.replace(/[^A-Za-z0-9]+/g, '-')}`;
}

export function textField(parts: TextFieldParts): JSX.Element {
  const { name, value, unit, type = 'text', inputmode, autocomplete, list, required, fault } = parts;
  return framed(
    parts,
    <span class={fault ? 'inp wrong' : 'inp'}>
      <input
        id={fieldId(name)}
        name={name}
        type={type}
        value={value}
        inputmode={inputmode}
        autocomplete={autocomplete}
        list={list}
        required={required}
        aria-invalid={fault ? 'true' : undefined}
        aria-describedby={describedBy(parts)}
      />
      {unit ? (
        <span class="u" id={`${fieldId(name)}-unit`} safe>
          {unit}
        </span>
      ) : (
        ''
      )}
    </span>,
  );
}

export function selectField(parts: FieldParts & { readonly options: readonly Option[] }): JSX.Element {
  const { name, value, options, fault } = parts;
  return framed(
    parts,
    <span class={fault ? 'inp wrong' : 'inp'}>
      <select
        id={fieldId(name)}
        name={name}
        aria-invalid={fault ? 'true' : undefined}
        aria-describedby={describedBy(parts)}
      >
        {options.map((option) => (
          <option value={option.value} selected={option.value === value} safe>
            {option.label}
          </option>
        ))}
      </select>
    </span>,
  );
}

export function areaField(parts: FieldParts & { readonly rows?: number }): JSX.Element {
  const { name, value, fault, rows = 3, required } = parts;
  return framed(
    parts,
    <span class={fault ? 'inp wrong' : 'inp'}>
      <textarea
        id={fieldId(name)}
        name={name}
        rows={String(rows)}
        required={required}
        aria-invalid={fault ? 'true' : undefined}
        aria-describedby={describedBy(parts)}
        safe
      >
        {value}
      </textarea>
    </span>,
  );
}

/** A group of boxes or of radio buttons under one name. */
export function choiceField(
  parts: Omit<FieldParts, 'value'> & {
    readonly kind: 'radio' | 'checkbox';
    readonly chosen: readonly string[];
    readonly options: readonly Option[];
  },
): JSX.Element {
  const { name, label, kind, chosen, options, fault, width = 'c6' } = parts;
  const id = fieldId(name);
  return group(
    { class: `f ${width}`, label },
    <>
      <span class="lab-t" aria-hidden="true" safe>
        {label}
      </span>
      <div class="choice">
        {options.map((option) => (
          <label>
            <input
              type={kind}
              name={name}
              id={`${id}-${option.value || 'none'}`}
              value={option.value}
              checked={chosen.includes(option.value)}
            />
            <span safe>{option.label}</span>
          </label>
        ))}
      </div>
      {below(parts.hint, fault, id)}
    </>,
  );
}

/** Fields that belong together, with a name for those who do not see that they do. */
export function group(parts: { readonly class: string; readonly label: string }, fields: JSX.Element): JSX.Element {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset inside the sections' fieldsets would be laid out as one of them
    <div class={parts.class} role="group" aria-label={parts.label}>
      {fields as 'safe'}
    </div>
  );
}

function framed(parts: FieldParts, control: JSX.Element): JSX.Element {
  const id = fieldId(parts.name);
  return (
    <div class={parts.width ? `f ${parts.width}` : 'f'}>
      <label for={id} safe>
        {parts.label}
      </label>
      {control as 'safe'}
      {below(parts.hint, parts.fault, id)}
    </div>
  );
}

function below(hint: string | undefined, fault: string | undefined, id: string): JSX.Element {
  return (
    <>
      {fault ? (
        <span class="err" id={`${id}-fault`} safe>
          {fault}
        </span>
      ) : (
        ''
      )}
      {hint ? (
        <span class="hint" id={`${id}-hint`} safe>
          {hint}
        </span>
      ) : (
        ''
      )}
    </>
  );
}

function describedBy(parts: TextFieldParts): string | undefined {
  const id = fieldId(parts.name);
  const ids = [parts.unit && `${id}-unit`, parts.fault && `${id}-fault`, parts.hint && `${id}-hint`].filter(Boolean);
  return ids.length > 0 ? ids.join(' ') : undefined;
}
