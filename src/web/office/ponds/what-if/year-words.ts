/** Likely, with the range in which it lies when the uses are high or low. */
export function dawnWords(range: { lowMgPerL: number; likelyMgPerL: number; highMgPerL: number }): string {
  const shown = (value: number) => value.toFixed(1);
  return `${shown(range.likelyMgPerL)} mg/L, between ${shown(range.lowMgPerL)} and ${shown(range.highMgPerL)}`;
}

/** How long the oxygen lasts from dusk with every machine stopped, in whole hours, rather fewer. */
export function hoursWords(hours: number | null): string {
  if (hours === null) return 'it lasts';
  return hours < 1 ? 'less than 1 h to 4 mg/L' : `about ${Math.floor(hours)} h to 4 mg/L`;
}
