import { type ReadingField, readingFields } from '../reading-fields.js';
import { lineOf, type SaidFor, type SaidReading, sayReading } from '../reading-words.js';
import { typedReading } from '../typed-reading.js';
import { button, element, sign } from './elements.js';

/** Judges every typed reading anew: temperature and pH decide about ammonia. The same words the server would say. */
export function sayReadings(form: HTMLFormElement): void {
  const about = JSON.parse(form.dataset.about ?? '{}') as SaidFor;
  const rows = readingFields(about.units).flatMap((field) => {
    const input = form.querySelector<HTMLInputElement>(`input[data-quantity="${field.quantity}"]`);
    return input ? [{ field, input, reading: typedReading(field, input.value) }] : [];
  });
  const typedValue = (quantity: ReadingField['quantity']) => {
    const reading = rows.find((row) => row.field.quantity === quantity)?.reading;
    return reading?.kind === 'value' ? reading.value : undefined;
  };
  const temperatureC = typedValue('water-temperature');
  const ph = typedValue('ph');
  const sample = { ...(temperatureC !== undefined && { temperatureC }), ...(ph !== undefined && { ph }) };

  for (const { field, input, reading } of rows) {
    const isWrong = reading.kind === 'wrong';
    input.closest('.inp')?.classList.toggle('wrong', isWrong);
    if (isWrong) input.setAttribute('aria-invalid', 'true');
    else input.removeAttribute('aria-invalid');
    const place = document.getElementById(`said-${field.quantity}`);
    if (!place) continue;
    const said = reading.kind === 'value' ? saidElement(sayReading(field, reading.value, sample, about)) : null;
    const spoken = isWrong ? wrongElement(input, reading.sentence, reading.meant) : said;
    // Left alone when nothing new is said, so that it is not read out again.
    if (place.textContent !== (spoken?.textContent ?? '')) place.replaceChildren(...(spoken ? [spoken] : []));
  }
}

/** What was probably meant is one press away. */
function wrongElement(input: HTMLInputElement, sentence: string, meant: string | null): HTMLElement {
  const wrong = element('div', 'wrong-said');
  wrong.append(element('span', 'err', sentence));
  if (meant === null) return wrong;
  const take = button(`Take ${meant}`, () => {
    input.value = meant;
    input.dispatchEvent(new Event('input', { bubbles: true }));
    input.dispatchEvent(new Event('change', { bubbles: true }));
    input.focus();
  });
  wrong.append(take);
  return wrong;
}

function saidElement(said: SaidReading): HTMLElement {
  if (said.form === 'line') {
    const line = element('span', 'verdict');
    line.append(sign('M2 7.5l3.4 3.6L12 3.4'), element('span', '', lineOf(said)));
    return line;
  }
  const block = element('div', `result ${said.level}`);
  const level = element('span', 'lvl');
  level.append(sign('M7 1.5L13 12.5H1z'), element('span', '', said.levelWord));
  const words = [element('p', '', said.limit), element('p', '', said.actions.join(' '))];
  block.append(level, element('span', 'big', said.headline), ...words);
  return block;
}
