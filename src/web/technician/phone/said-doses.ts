import type { UnitSystem } from '../../../core/units/show.js';
import { doseFor } from '../chemical-dose.js';
import { type ClosingCard, volumeField } from '../closing-form.js';
import { numberOf } from '../typed-reading.js';

/** Says the dose for the water that is typed, beside it. */
export function sayDoses(form: HTMLFormElement, cards: readonly ClosingCard[], units: UnitSystem): void {
  for (const card of cards) {
    card.chemicals.forEach((dose, index) => {
      const name = volumeField(card, index, dose.quantity.basis.of);
      const input = form.querySelector<HTMLInputElement>(`[name="${CSS.escape(name)}"]`);
      const place = document.getElementById(`dose:${card.taskId}:${index}`);
      if (!input || !place) return;
      const words = doseWords(doseFor(dose, numberOf(input.value) * dose.perUnit, units)?.words, input.value, dose);
      if (place.textContent !== words) place.textContent = words;
    });
  }
}

function doseWords(
  words: string | undefined,
  typed: string,
  { plannedVolume, unit }: { plannedVolume: string; unit: string },
): string {
  if (words !== undefined) return `Measure out ${words}.`;
  if (numberOf(typed) === 0) return 'Nothing goes in.';
  return `No dose for that: planned are ${plannedVolume} ${unit}, at most ten times as much.`;
}
