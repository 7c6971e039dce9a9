/** Whose uncertainty the band of a water forecast shows. */
export interface BandPart {
  readonly id: 'weather' | 'model' | 'thermometer';
  readonly title: string;
  readonly words: string;
}

export const BAND_PARTS: readonly BandPart[] = [
  {
    id: 'weather',
    title: 'From the weather',
    words:
      'Days to come are drawn 40 times: days that follow one another, and months that are warm or cold as a whole. Measured air takes this part away for days gone by.',
  },
  {
    id: 'model',
    title: 'From the model',
    words:
      'Each draw also carries a steady offset and a passing error of the heat balance: wind, shade, falls and ground that nobody measured. Readings of the water narrow it.',
  },
  {
    id: 'thermometer',
    title: 'From the thermometer',
    words:
      'It does not widen the band. It says how much a reading is believed, and when it is not believed at all and asked for again.',
  },
];
