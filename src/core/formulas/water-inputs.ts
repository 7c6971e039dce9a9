import type { ChoiceInput, NumberInput } from './formula.js';

/** A number to be asked for; `range` is where the model holds. */
export function numberInput(
  name: string,
  symbol: string,
  meaning: string,
  unit: string,
  range: { readonly min: number; readonly max: number; readonly example: number },
): NumberInput {
  return { kind: 'number', name, symbol, meaning, unit, ...range };
}

export const WATER_TEMPERATURE = numberInput('temperatureC', 'T', 'Water temperature', '°C', {
  min: 0,
  max: 40,
  example: 20,
});
export const PH = numberInput('ph', 'pH', 'pH of the same sample; the afternoon is the worst hour', '', {
  min: 6,
  max: 10,
  example: 8,
});
export const ELEVATION = numberInput('elevationM', 'h', 'Height above the sea', 'm', {
  min: -500,
  max: 5400,
  example: 0,
});
export const VOLUME = numberInput('volumeL', 'V', 'Water in the pond', 'L', {
  min: 100,
  max: 1_000_000,
  example: 15_000,
});
export const ALKALINITY = numberInput('alkalinityMgCaCO3PerL', 'Alk', 'Alkalinity', 'mg/L CaCO3', {
  min: 1,
  max: 400,
  example: 100,
});
export const AMMONIA_LOAD = numberInput('ammoniaLoadGNPerDay', 'P', 'Ammonia that comes of the food', 'g N/day', {
  min: 0,
  max: 1000,
  example: 6.44,
});
export const OXYGEN = numberInput('dissolvedOxygenMgPerL', 'C', 'Oxygen in the water', 'mg/L', {
  min: 0,
  max: 25,
  example: 5,
});
export const CHLORINE = numberInput('totalChlorineMgCl2PerL', 'Cl', 'Total chlorine of the new water', 'mg/L Cl2', {
  min: 0,
  max: 10,
  example: 1.5,
});
export const CHANGE_SHARE = numberInput('changeShare', 'x', 'Share of the pond exchanged', '', {
  min: 0.01,
  max: 1,
  example: 0.2,
});

export const PRODUCTION = numberInput('productionMgNPerLDay', 'p', 'Nitrate made', 'mg/L N per day', {
  min: 0,
  max: 10,
  example: 0.4293,
});

export const SOURCE_NITRATE = numberInput('sourceNitrateMgNPerL', 'cs', 'Nitrate of the new water', 'mg/L as N', {
  min: 0,
  max: 50,
  example: 2,
});

export const INTERVAL = numberInput('intervalDays', 'n', 'Days between changes', 'd', { min: 1, max: 60, example: 7 });

export const TOTAL_AMMONIA = numberInput(
  'totalAmmoniaMgNPerL',
  'TAN',
  'Total ammonia, NH3 and NH4 together',
  'mg/L as N',
  {
    min: 0,
    max: 20,
    example: 1,
  },
);

export const SOURCE_ALKALINITY: NumberInput = {
  ...ALKALINITY,
  name: 'sourceAlkalinityMgCaCO3PerL',
  symbol: 'As',
  meaning: 'Alkalinity of the new water',
  example: 150,
};
export const POND_TEMPERATURE: NumberInput = {
  ...WATER_TEMPERATURE,
  name: 'pondTemperatureC',
  symbol: 'Tp',
  meaning: 'Pond before the change',
  example: 22,
};
export const SOURCE_TEMPERATURE: NumberInput = {
  ...WATER_TEMPERATURE,
  name: 'sourceTemperatureC',
  symbol: 'Ts',
  meaning: 'New water',
  example: 12,
};

/** A closed choice whose labels are its values in words. */
export function choiceInput(
  name: string,
  symbol: string,
  meaning: string,
  choices: ChoiceInput['choices'],
  example: string,
): ChoiceInput {
  return { kind: 'choice', name, symbol, meaning, choices, example };
}

/** A verdict of the code as it is read aloud: "in-order" is "in order". */
export function inWords(code: string): string {
  return code.replaceAll('-', ' ').replace(/\bph\b/, 'pH');
}
