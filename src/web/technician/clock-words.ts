/** `08:00` as `8:00`; hours up to 24, as on a round. */
export function clockWords(time: string): string {
  return time.replace(/^0/, '');
}

/** The arrival told to the homeowner, or an empty text. */
export function toldWords(visit: { readonly fromTime: string | null; readonly toTime: string | null }): string {
  if (visit.fromTime === null || visit.toTime === null) return '';
  return `${clockWords(visit.fromTime)} to ${clockWords(visit.toTime)}`;
}
