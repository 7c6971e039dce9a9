/** What stands in a form, by field name; empty fields are left out. */
export function typedOf(form: HTMLFormElement): Record<string, string> {
  const typed: Record<string, string> = {};
  for (const [name, value] of new FormData(form)) {
    if (typeof value === 'string' && value !== '' && name !== '_token') typed[name] = value;
  }
  return typed;
}

/** Puts into a form what was typed before; what is not there is left as the page has it. */
export function putBack(form: HTMLFormElement, typed: Readonly<Record<string, string>>): void {
  for (const field of form.elements) {
    if (field instanceof HTMLInputElement && (field.type === 'checkbox' || field.type === 'radio')) {
      field.checked = typed[field.name] === field.value;
    } else if (isTextField(field) && field.name !== '_token' && typed[field.name] !== undefined) {
      field.value = typed[field.name] as string;
    }
  }
  openUsed(form);
}

/** What is folded away but in use must be seen. */
function openUsed(form: HTMLFormElement): void {
  for (const details of form.querySelectorAll('details')) {
    const fields = [...details.querySelectorAll<HTMLInputElement>('input, select, textarea')];
    if (
      fields.some((field) => field.value !== field.defaultValue && field.value !== '' && field.type !== 'select-one')
    ) {
      details.open = true;
    }
  }
}

/** Some fields have a place of their own, where it is said already. */
function isSaid(name: string): boolean {
  const places = [`said-${name.replace('reading:', '')}`, `${name}-fault`];
  return places.some((id) => Boolean(document.getElementById(id)?.textContent));
}

function faultElement(sentence: string): HTMLElement {
  const fault = document.createElement('span');
  fault.className = 'err now';
  fault.textContent = sentence;
  return fault;
}

function isTextField(field: Element): field is HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement {
  return (
    field instanceof HTMLInputElement || field instanceof HTMLSelectElement || field instanceof HTMLTextAreaElement
  );
}

/** Shows what is wrong beside each field, and leads to the first. */
export function showFaults(form: HTMLFormElement, faults: Readonly<Record<string, string>>): void {
  for (const old of form.querySelectorAll('.err.now')) old.remove();
  for (const old of form.querySelectorAll('.inp.wrong.now')) old.classList.remove('wrong', 'now');
  let first: HTMLElement | null = null;
  for (const [name, sentence] of Object.entries(faults)) {
    const field = form.querySelector<HTMLElement>(`[name="${CSS.escape(name)}"]`);
    if (!field) continue;
    for (let around = field.closest('details'); around; around = around.parentElement?.closest('details') ?? null) {
      around.open = true;
    }
    field.setAttribute('aria-invalid', 'true');
    const box = field.closest('.inp');
    if (box && !box.classList.contains('wrong')) box.classList.add('wrong', 'now');
    if (!isSaid(name)) (box ?? field.closest('label') ?? field).after(faultElement(sentence));
    first ??= field;
  }
  first?.scrollIntoView({ block: 'center' });
  first?.focus({ preventScroll: true });
}
