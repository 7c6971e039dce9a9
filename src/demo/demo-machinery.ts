import type { EquipmentInput } from '../ponds/index.js';
import type { DemoMachinery } from './demo-ponds.js';

type Machine = [kind: EquipmentInput['kind'], name: string, rated: EquipmentInput['rated'], ageDays: number];

const PLATES: Readonly<Record<DemoMachinery, readonly Machine[]>> = {
  'koi-full': [
    ['pump', 'Filter pump', { flowLPerH: 12_000, powerW: 110 }, 700],
    ['mechanical-filter', 'Foam chamber', { mediaVolumeL: 60 }, 900],
    ['biological-filter', 'Moving media', { mediaVolumeL: 80, mediaAreaM2PerM3: 500 }, 900],
    ['uv-lamp', 'UV unit', { powerW: 55, lampRatedHours: 9000 }, 410],
    ['aerator', 'Air pump', { powerW: 40 }, 500],
    ['skimmer', 'Skimmer', {}, 900],
    ['de-icer', 'Floating de-icer', { powerW: 300 }, 700],
  ],
  'koi-two-circuits': [
    ['pump', 'Filter pump', { flowLPerH: 16_000, powerW: 140 }, 800],
    ['pump', 'Waterfall pump', { flowLPerH: 12_000, powerW: 120 }, 300],
    ['mechanical-filter', 'Foam chamber', { mediaVolumeL: 100 }, 1200],
    ['biological-filter', 'Moving media', { mediaVolumeL: 150, mediaAreaM2PerM3: 500 }, 1200],
    ['uv-lamp', 'UV unit', { powerW: 75, lampRatedHours: 9000 }, 230],
    ['aerator', 'Air pump', { powerW: 60 }, 600],
    ['skimmer', 'Skimmer', {}, 1200],
    ['de-icer', 'Floating de-icer', { powerW: 500 }, 800],
    ['lights', 'Low-voltage lights', { powerW: 40 }, 1000],
  ],
  garden: [
    ['pump', 'Pump', { flowLPerH: 6000, powerW: 65 }, 600],
    ['mechanical-filter', 'Pressure filter', { mediaVolumeL: 25 }, 600],
    ['biological-filter', 'Filter balls', { mediaVolumeL: 30, mediaAreaM2PerM3: 300 }, 600],
    ['uv-lamp', 'UV unit', { powerW: 18, lampRatedHours: 9000 }, 350],
  ],
  'small-circuit': [
    ['pump', 'Pump', { flowLPerH: 3600, powerW: 45 }, 500],
    ['mechanical-filter', 'Foam box', { mediaVolumeL: 30 }, 500],
    ['biological-filter', 'Filter balls', { mediaVolumeL: 40, mediaAreaM2PerM3: 300 }, 500],
    ['aerator', 'Air pump', { powerW: 20 }, 500],
  ],
  bubbler: [
    ['pump', 'Bubbler pump', { flowLPerH: 1200, powerW: 20 }, 400],
    ['mechanical-filter', 'Intake foam', { mediaVolumeL: 5 }, 400],
  ],
};

/** The machinery of a demo pond; without frost it has no de-icer. */
export function demoMachinery(
  preset: DemoMachinery,
  options: { dayIso: (daysAgo: number) => string; ownsDeIcer: boolean; newestDays: number },
): EquipmentInput[] {
  return PLATES[preset]
    .filter(([kind]) => kind !== 'de-icer' || options.ownsDeIcer)
    .map(([kind, name, rated, ageDays]) => {
      const age = Math.min(ageDays, options.newestDays);
      return { kind, name, rated, installedOn: options.dayIso(age), warrantyUntil: options.dayIso(age - 730) };
    });
}
