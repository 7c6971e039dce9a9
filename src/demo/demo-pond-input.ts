import { addDays, type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import type { PondInputTyped } from '../ponds/index.js';
import { demoMachinery } from './demo-machinery.js';
import { DEMO_PLACES, type DemoPond } from './demo-ponds.js';

/** Ponds lie a kilometre or so apart around the middle of their town. [degrees] */
const SPREAD_DEGREES = 0.035;

/** A demo pond as it would be typed into the form. */
export function demoPondInput(pond: DemoPond, place: number, today: CivilDay): PondInputTyped {
  const where = DEMO_PLACES[pond.place];
  const dayIso = (daysAgo: number) => isoDateOf(addDays(today, -Math.round(daysAgo)));
  const [lengthM, widthM, meanDepthM, maxDepthM] = pond.sizeM;
  const isNew = pond.runningInDays !== undefined;
  const builtDaysAgo = pond.runningInDays ?? Math.max(pond.builtYearsAgo * 365, 400);
  const angle = place * 2.4; // the golden angle, so that no two lie on one spot
  const reach = SPREAD_DEGREES * Math.sqrt((place % 12) + 1);

  return {
    name: `${pond.family} pond`,
    street: pond.street,
    town: where.town,
    region: where.region,
    country: where.country,
    latitude: round(where.latitude + reach * Math.sin(angle)),
    longitude: round(where.longitude + reach * Math.cos(angle)),
    elevationM: where.elevationM,
    timeZone: where.timeZone,
    water: {
      method: 'shape',
      shape: { kind: pond.form, lengthM, widthM, depth: { kind: 'average', meanDepthM, maxDepthM } },
    },
    directSunHours: pond.directSunHours,
    windShelter: pond.windShelter,
    treesNear: pond.treesNear,
    waterfall: pond.machinery === 'koi-two-circuits',
    plants:
      pond.machinery === 'garden' ? ['hardy-lily', 'marginal'] : pond.machinery === 'koi-full' ? ['marginal'] : [],
    tap: { source: pond.tap[0], totalChlorineMgPerL: pond.tap[1] },
    commissionedOn: dayIso(builtDaysAgo),
    stockedOn: isNew ? null : dayIso(builtDaysAgo - 60),
    careSince: dayIso(isNew ? builtDaysAgo : 365),
    accessNotes:
      place % 3 === 0 ? 'Gate on the left, the latch sticks.' : place % 3 === 1 ? 'Ring at the front door first.' : '',
    gateCode: place % 4 === 0 ? String(1000 + ((place * 137) % 9000)) : '',
    hazards: place % 5 === 0 ? 'Dog in the yard, friendly.' : '',
    equipment: demoMachinery(pond.machinery, {
      dayIso,
      ownsDeIcer: pond.place === 'madison',
      newestDays: builtDaysAgo,
    }),
    stock: pond.stock.map(([species, count, lengthCm]) => ({ species, count, lengthCm })),
    contacts: [
      {
        name: `${pond.given} ${pond.family}`,
        role: 'homeowner',
        email: pond.mail ? `${pond.given}.${pond.family}@example.com`.toLowerCase() : null,
        phone: `555-01${String(10 + place).padStart(2, '0')}`,
        startedOn: dayIso(Math.min(builtDaysAgo, 365)),
      },
    ],
  };
}

const round = (degrees: number) => Math.round(degrees * 10_000) / 10_000;
