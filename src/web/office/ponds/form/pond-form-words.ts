import type { EquipmentKind, PlantKind, Species, TapSource } from '../../../../core/care/pond-facts.js';
import type { Option } from '../../../forms/fields.js';

export const EQUIPMENT_WORDS: Readonly<Record<EquipmentKind, string>> = {
  pump: 'Pump',
  'mechanical-filter': 'Mechanical filter',
  'biological-filter': 'Biological filter',
  'uv-lamp': 'UV lamp',
  aerator: 'Aerator',
  'de-icer': 'De-icer',
  skimmer: 'Skimmer',
  lights: 'Lights',
  'auto-fill': 'Auto-fill',
  heater: 'Heater',
};
export const SPECIES_WORDS: Readonly<Record<Species, string>> = {
  koi: 'Koi',
  goldfish: 'Goldfish',
  'other-fish': 'Other fish',
  'slider-turtle': 'Slider turtle',
};
export const PLANT_WORDS: Readonly<Record<PlantKind, string>> = {
  'hardy-lily': 'Hardy lilies',
  'tropical-lily': 'Tropical lilies',
  marginal: 'Marginals',
  submerged: 'Submerged plants',
  'floating-tropical': 'Tropical floating plants',
  lotus: 'Lotus',
};
export const TAP_WORDS: Readonly<Record<TapSource, string>> = {
  chlorine: 'Chlorine',
  chloramine: 'Chloramine',
  well: 'Well, nothing added',
  unknown: 'Not known',
};

const options = (words: Readonly<Record<string, string>>): Option[] =>
  Object.entries(words).map(([value, label]) => ({ value, label }));

export const EQUIPMENT_OPTIONS: readonly Option[] = [{ value: '', label: 'None' }, ...options(EQUIPMENT_WORDS)];
export const SPECIES_OPTIONS: readonly Option[] = [{ value: '', label: 'None' }, ...options(SPECIES_WORDS)];
export const PLANT_OPTIONS: readonly Option[] = options(PLANT_WORDS);
export const TAP_OPTIONS: readonly Option[] = options(TAP_WORDS);
export const SHAPE_OPTIONS: readonly Option[] = [
  { value: 'ellipse', label: 'Oval' },
  { value: 'rectangle', label: 'Rectangle' },
  { value: 'circle', label: 'Round' },
  { value: 'stadium', label: 'Round ends' },
  { value: 'kidney', label: 'Kidney' },
  { value: 'measured-area', label: 'Measured area' },
  { value: 'none', label: 'Meter only' },
];
export const PIPE_OPTIONS: readonly Option[] = [
  { value: 'smooth-plastic', label: 'Smooth inside' },
  { value: 'ribbed-hose', label: 'Ribbed inside' },
];
export const WIND_OPTIONS: readonly Option[] = [
  { value: 'open', label: 'Open' },
  { value: 'suburban', label: 'Garden, houses' },
  { value: 'walled', label: 'Walled in' },
];
export const ROLE_OPTIONS: readonly Option[] = [
  { value: 'homeowner', label: 'Homeowner' },
  { value: 'caretaker', label: 'Caretaker' },
  { value: 'neighbour', label: 'Neighbour' },
  { value: 'builder', label: 'Builder' },
];
