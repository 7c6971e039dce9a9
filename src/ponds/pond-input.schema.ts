import { z } from 'zod';
import { ContactInputSchema } from './contact-input.schema.js';
import { PondInputRefusedError } from './ponds.errors.js';
import { calendarDate, neededText, numberWithin, oneOf, text, timeZone, wholeNumberWithin } from './typed-fields.js';
import { WaterInputSchema } from './water-input.schema.js';

export const EQUIPMENT_KINDS = [
  'pump',
  'mechanical-filter',
  'biological-filter',
  'uv-lamp',
  'aerator',
  'de-icer',
  'skimmer',
  'lights',
  'auto-fill',
  'heater',
] as const;
export const SPECIES = ['koi', 'goldfish', 'other-fish', 'slider-turtle'] as const;
export const PLANT_KINDS = [
  'hardy-lily',
  'tropical-lily',
  'marginal',
  'submerged',
  'floating-tropical',
  'lotus',
] as const;
export const TAP_SOURCES = ['chlorine', 'chloramine', 'well', 'unknown'] as const;
export const WIND_SHELTERS = ['open', 'suburban', 'walled'] as const;

export const PIPE_WALLS = ['smooth-plastic', 'ribbed-hose'] as const;

/** What a pump pumps through; its real flow then follows from the pump's two ends. */
const PumpLineSchema = z.strictObject({
  liftM: numberWithin('lift', 0, 30, 'm'),
  lengthM: numberWithin('length of the pipe', 0, 1000, 'm'),
  insideDiameterMm: numberWithin('inside diameter of the pipe', 10, 300, 'mm'),
  wall: oneOf('pipe', PIPE_WALLS).default('smooth-plastic'),
  elbows: wholeNumberWithin('right-angle bends', 0, 100).default(0),
  checkValves: wholeNumberWithin('check valves', 0, 10).optional(),
  filterHeadM: numberWithin('head taken by filter and lamp', 0, 30, 'm').optional(),
});

const PlateSchema = z.strictObject({
  flowLPerH: numberWithin('rated flow', 1, 1_000_000, 'L/h').optional(),
  maxHeadM: numberWithin('highest head of the pump', 0.1, 100, 'm').optional(),
  line: PumpLineSchema.optional(),
  powerW: numberWithin('power', 0.1, 50_000, 'W').optional(),
  lampRatedHours: numberWithin('rated lamp life', 500, 50_000, 'h').optional(),
  mediaVolumeL: numberWithin('media volume', 0.1, 100_000, 'L').optional(),
  mediaAreaM2PerM3: numberWithin('media surface', 10, 20_000, 'm² per m³').optional(),
  serviceLifeDays: wholeNumberWithin('service life, days', 1, 36_500).optional(),
});

/** A line without both ends of the pump's curve would be typed for nothing. */
const RatedSchema = PlateSchema.superRefine(({ line, flowLPerH, maxHeadM }, context) => {
  if (line === undefined) return;
  if (flowLPerH === undefined) {
    context.addIssue({ code: 'custom', path: ['flowLPerH'], message: 'rated flow: needed with the line of the pump.' });
  }
  if (maxHeadM === undefined) {
    context.addIssue({
      code: 'custom',
      path: ['maxHeadM'],
      message: 'highest head: needed with the line of the pump; it stands on its plate as the greatest height.',
    });
  }
});

export const EquipmentInputSchema = z
  .strictObject({
    /** Of a machine that is already in the register. */
    id: z.uuid().optional(),
    kind: oneOf('equipment kind', EQUIPMENT_KINDS),
    name: text('equipment name', 120).default(''),
    installedOn: calendarDate('installed on').nullable().default(null),
    warrantyUntil: calendarDate('warranty until').nullable().default(null),
    rated: RatedSchema.default({}),
  })
  .refine((machine) => !machine.installedOn || !machine.warrantyUntil || machine.warrantyUntil >= machine.installedOn, {
    path: ['warrantyUntil'],
    error: 'warranty until: not before the day of installation.',
  });

export const StockInputSchema = z.strictObject({
  species: oneOf('species', SPECIES),
  count: wholeNumberWithin('count', 1, 10_000),
  /** Total length of a fish, shell length of a turtle. */
  lengthCm: numberWithin('length', 1, 120, 'cm'),
});

export const AgreementInputSchema = z
  .strictObject({
    ruleId: neededText('rule', 80),
    doneBy: oneOf('done by', ['company', 'homeowner']),
    from: calendarDate('from').nullable().default(null),
    until: calendarDate('until').nullable().default(null),
  })
  .refine((term) => !term.from || !term.until || term.from <= term.until, {
    path: ['until'],
    error: 'until: not before the first day of the agreement.',
  });

/**
 * A pond record as typed: one form for the page, the JSON API and the CSV import. Units are those of the names;
 * longitudes are east positive. With `stockedOn` left out the product judges whether the pond is still running in.
 */
export const PondInputSchema = z
  .strictObject({
    name: neededText('name', 120),
    /** The company's own reference, unique in it. */
    ref: neededText('pond reference', 60).nullable().default(null),
    street: text('street', 160).default(''),
    town: text('town', 120).default(''),
    region: text('region', 120).default(''),
    postalCode: text('postal code', 20).default(''),
    country: z
      .string()
      .trim()
      .toUpperCase()
      .regex(/^[A-Z]{2}$/, { error: 'country: the two letters of ISO 3166, for example US or DE.' })
      .default('US'),
    latitude: numberWithin('latitude', -90, 90, 'degrees north (south negative)'),
    longitude: numberWithin('longitude', -180, 180, 'degrees east (west negative)'),
    elevationM: numberWithin('elevation', -430, 5500, 'm'),
    timeZone: timeZone('time zone').optional(),
    water: WaterInputSchema,
    directSunHours: numberWithin('hours of direct sun at midsummer', 0, 24, 'h').default(6),
    windShelter: oneOf('wind shelter', WIND_SHELTERS).default('suburban'),
    treesNear: z.boolean({ error: 'trees near: yes or no.' }).default(false),
    waterfall: z.boolean({ error: 'waterfall: yes or no.' }).default(false),
    plants: z.array(oneOf('plants', PLANT_KINDS)).max(PLANT_KINDS.length).default([]),
    tap: z
      .strictObject({
        source: oneOf('tap water', TAP_SOURCES),
        totalChlorineMgPerL: numberWithin('total chlorine of the tap', 0, 10, 'mg/L').nullable().default(null),
      })
      .default({ source: 'unknown', totalChlorineMgPerL: null }),
    commissionedOn: calendarDate('filled on').nullable().default(null),
    stockedOn: calendarDate('livestock released on').nullable().optional(),
    careSince: calendarDate('in our care since').optional(),
    stationId: neededText('climate station', 80).nullable().default(null),
    hardinessZone: z
      .string()
      .regex(/^([1-9]|1[0-3])[ab]$/, { error: 'hardiness zone: a USDA zone such as 5b.' })
      .nullable()
      .default(null),
    koeppen: z
      .string()
      .regex(/^(A[fmw]|B[WS][hk]|C[fsw][abc]|D[fsw][abcd]|E[TF])$/, {
        error: 'climate class: a Koeppen-Geiger class such as Cfb or Dfa.',
      })
      .nullable()
      .default(null),
    accessNotes: text('access notes', 2000).default(''),
    gateCode: text('gate code', 60).default(''),
    hazards: text('hazards', 2000).default(''),
    equipment: z.array(EquipmentInputSchema).max(60, { error: 'equipment: at most 60 machines.' }).default([]),
    stock: z.array(StockInputSchema).max(40, { error: 'stock: at most 40 groups.' }).default([]),
    agreement: z.array(AgreementInputSchema).max(200, { error: 'agreement: at most 200 terms.' }).default([]),
    contacts: z.array(ContactInputSchema).max(20, { error: 'contacts: at most 20.' }).default([]),
  })
  .refine((pond) => !pond.commissionedOn || !pond.stockedOn || pond.stockedOn >= pond.commissionedOn, {
    path: ['stockedOn'],
    error: 'livestock released on: not before the pond was filled.',
  });

export type EquipmentInput = z.output<typeof EquipmentInputSchema>;
export type StockInput = z.output<typeof StockInputSchema>;
export type AgreementInput = z.output<typeof AgreementInputSchema>;
export type PondInput = z.output<typeof PondInputSchema>;
/** Before defaults: what a form, a program or a file may leave out is left out. */
export type PondInputTyped = z.input<typeof PondInputSchema>;

/** Checks what was typed. @throws PondInputRefusedError naming each field, its value and what is allowed. */
export function readPondInput(typed: unknown): PondInput {
  const checked = PondInputSchema.safeParse(typed);
  if (checked.success) return checked.data;
  throw new PondInputRefusedError(
    checked.error.issues.map((issue) => ({
      field: issue.path.map(String).join('.') || issue.code,
      value: issue.input ?? valueAt(typed, issue.path),
      allowed: issue.message,
    })),
  );
}

function valueAt(typed: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((inside, key) => (inside as Record<PropertyKey, unknown> | undefined)?.[key], typed);
}
