/** How a person wants to read figures. Stored values are always SI. */
export type UnitSystem = 'us' | 'metric';

const L_PER_US_GAL = 3.785411784;
const G_PER_OZ = 28.349523125;
const G_PER_LB = 453.59237;
const M_PER_FT = 0.3048;

/** A temperature with its unit, e.g. `59 °F` or `15.0 °C`. */
export function showTemperature(temperatureC: number, units: UnitSystem, decimals = 0): string {
  return units === 'us' ? `${fixed(temperatureC * 1.8 + 32, decimals)} °F` : `${fixed(temperatureC, decimals)} °C`;
}

/** A volume with its unit, three significant figures at most, e.g. `2,850 gal` or `10,800 L`. US gallons. */
export function showVolume(volumeL: number, units: UnitSystem): string {
  return units === 'us' ? `${figures(volumeL / L_PER_US_GAL)} gal` : `${figures(volumeL)} L`;
}

/** A flow with its unit. */
export function showFlow(flowLPerH: number, units: UnitSystem): string {
  return units === 'us' ? `${figures(flowLPerH / L_PER_US_GAL)} gal/h` : `${figures(flowLPerH)} L/h`;
}

/** A mass with its unit: grams, with ounces beside them in US units; kilograms or pounds from 1 kg on. */
export function showMass(massG: number, units: UnitSystem): string {
  if (massG >= 1000) return units === 'us' ? `${figures(massG / G_PER_LB)} lb` : `${figures(massG / 1000)} kg`;
  return units === 'us' ? `${figures(massG)} g (${fixed(massG / G_PER_OZ, 1)} oz)` : `${figures(massG)} g`;
}

/** A length or depth, e.g. `4 ft 2 in` or `1.27 m`. */
export function showLength(lengthM: number, units: UnitSystem): string {
  if (units === 'metric') return lengthM < 1 ? `${Math.round(lengthM * 100)} cm` : `${fixed(lengthM, 2)} m`;
  const inches = Math.round((lengthM / M_PER_FT) * 12);
  const feet = Math.floor(inches / 12);
  const rest = inches % 12;
  if (feet === 0) return `${rest} in`;
  return rest === 0 ? `${feet} ft` : `${feet} ft ${rest} in`;
}

/** An area, e.g. `130 sq ft` or `12 m²`. */
export function showArea(areaM2: number, units: UnitSystem): string {
  return units === 'us' ? `${figures(areaM2 / M_PER_FT ** 2)} sq ft` : `${figures(areaM2)} m²`;
}

/** A count of minutes, e.g. `25 min` or `2 h 30 min`. */
export function showMinutes(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = Math.round(minutes % 60);
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** A number with at most three significant figures and thousands marked. */
export function figures(value: number): string {
  if (value === 0) return '0';
  const digits = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  const rounded = Number(value.toPrecision(3));
  return rounded.toLocaleString('en-US', { maximumFractionDigits: Math.min(digits, 3) });
}

function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}
