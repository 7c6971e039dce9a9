import { z } from 'zod';

const id = z.string().regex(/^[a-z][a-z0-9-]*$/, 'write words in lower case joined by hyphens');
const parameterName = z.string().regex(/^[a-z][A-Za-z0-9]*$/, 'write the name of one of the parameters');
const text = z.string().min(2, 'write a few words');

const EQUIPMENT = [
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
const QUANTITIES = [
  'water-temperature',
  'ph',
  'total-ammonia',
  'nitrite',
  'nitrate',
  'alkalinity',
  'hardness',
  'dissolved-oxygen',
  'total-chlorine',
  'salinity',
  'pump-flow',
  'unionised-ammonia',
  'clarity',
  'algae-cover',
  'sludge-depth',
  'snow-depth',
  'weekly-top-up',
] as const;
const EVENTS = [
  'commissioning',
  'fish-added',
  'large-water-change',
  'task-completed',
  'house-sold',
  'full-clean-out',
  'leak-test',
  'power-failure',
  'algaecide-asked',
  'algaecide-applied',
  'warranty-end',
  'ice-forecast',
  'heat-forecast',
] as const;

const parameter = z.strictObject({
  value: z.number(),
  min: z.number(),
  max: z.number(),
  unit: z.string(),
  provenance: z.enum(['published source', 'common practice', 'from memory', 'derived']),
  source: text,
  section: text.optional(),
});

const appliesTo = z.strictObject({
  equipment: z.array(z.enum(EQUIPMENT)).min(1).optional(),
  withoutEquipment: z.array(z.enum(EQUIPMENT)).min(1).optional(),
  winterClass: z
    .array(z.enum(['W0', 'W1', 'W2', 'W3']))
    .min(1)
    .optional(),
  tap: z
    .array(z.enum(['chlorine', 'chloramine', 'well', 'unknown']))
    .min(1)
    .optional(),
  fish: z.boolean().optional(),
  turtles: z.boolean().optional(),
  livestock: z.boolean().optional(),
  plants: z
    .array(z.enum(['hardy-lily', 'tropical-lily', 'marginal', 'submerged', 'floating-tropical', 'lotus']))
    .min(1)
    .optional(),
  treesNear: z.boolean().optional(),
  waterfall: z.boolean().optional(),
  inRunIn: z.boolean().optional(),
  heated: z.boolean().optional(),
  stocking: z.enum(['light', 'heavy']).optional(),
  koi: z.boolean().optional(),
  inStages: z.boolean().optional(),
  volumeUncertain: z.boolean().optional(),
});

const trigger = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('crossing'),
    threshold: parameterName,
    direction: z.enum(['rising', 'falling']),
    leadDays: parameterName.optional(),
    earliestQuantile: z.union([z.literal(0.1), z.literal(0.5)], 'allowed is 0.1 or 0.5').optional(),
    latestQuantile: z.union([z.literal(0.5), z.literal(0.9)], 'allowed is 0.5 or 0.9').optional(),
    earlyDays: parameterName.optional(),
    lateDays: parameterName.optional(),
    persistenceDays: z.int().min(1).max(30).optional(),
  }),
  z.strictObject({
    kind: z.literal('accumulation'),
    load: z.enum(['lamp-hours', 'pump-days', 'aerator-days', 'filter-solids-g', 'evaporation-l']),
    limit: parameterName,
    tolerancePct: parameterName,
    notLastingSeason: z.strictObject({ earlyDays: parameterName, lateDays: parameterName }).optional(),
    minDays: parameterName.optional(),
    minDaysUnlessEquipment: z.enum(EQUIPMENT).optional(),
    floorDays: parameterName.optional(),
  }),
  z.strictObject({
    kind: z.literal('interval'),
    days: parameterName,
    minDays: parameterName.optional(),
    maxDays: parameterName.optional(),
    season: z
      .strictObject({
        aboveC: parameterName.optional(),
        belowC: parameterName.optional(),
        iceFree: z.boolean().optional(),
      })
      .optional(),
    slackDays: parameterName,
    onlyIf: appliesTo.optional(),
    fromRule: id.optional(),
    fromInstallation: z.boolean().optional(),
  }),
  z.strictObject({
    kind: z.literal('event'),
    event: z.enum(EVENTS),
    ofRule: id.optional(),
    afterDays: parameterName,
    earlyDays: parameterName.optional(),
    lateDays: parameterName.optional(),
  }),
  z.strictObject({
    kind: z.literal('season'),
    mark: z.enum(['last-freeze', 'first-freeze', 'leaf-fall', 'first-ice', 'ice-out']),
    probability: z.number().min(0.01, 'allowed is 0.01 to 0.99').max(0.99, 'allowed is 0.01 to 0.99'),
    leadDays: parameterName.optional(),
    earlyDays: parameterName.optional(),
    lateDays: parameterName.optional(),
  }),
  z.strictObject({
    kind: z.literal('reading'),
    quantity: z.enum(QUANTITIES),
    limit: parameterName,
    when: z.enum(['above', 'below']),
    severity: z.enum(['care', 'urgent']),
    withinDays: parameterName,
    lastingDays: parameterName.optional(),
    trendDays: parameterName.optional(),
  }),
]);

const gate = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('water-above'),
    threshold: parameterName,
    lowestOfDays: z.int().min(1).max(14).optional(),
    onlyIf: appliesTo.optional(),
  }),
  z.strictObject({ kind: z.literal('water-below'), threshold: parameterName, onlyIf: appliesTo.optional() }),
  z.strictObject({ kind: z.literal('ice-free'), onlyIf: appliesTo.optional() }),
  z.strictObject({
    kind: z.literal('no-hard-frost-within'),
    days: parameterName,
    airBelowC: parameterName,
    onlyIf: appliesTo.optional(),
  }),
  z.strictObject({
    kind: z.literal('reading-below'),
    quantity: z.enum(QUANTITIES),
    limit: parameterName,
    readings: z.int().min(1).max(10),
    hoursApart: z.number().min(0).max(336),
    sinceRule: id.optional(),
    orSinceRule: id.optional(),
    onlyIf: appliesTo.optional(),
  }),
  z.strictObject({
    kind: z.literal('reading-above'),
    quantity: z.enum(QUANTITIES),
    limit: parameterName,
    freshDays: parameterName.optional(),
    onlyIf: appliesTo.optional(),
  }),
  z.strictObject({ kind: z.literal('rule-completed'), ruleId: id, onlyIf: appliesTo.optional() }),
]);

const minutes = z.strictObject({
  value: z.number(),
  min: z.number(),
  max: z.number(),
  unit: z.literal('min').default('min'),
  provenance: z.enum(['published source', 'common practice', 'from memory', 'derived']).default('common practice'),
  source: text.default('service visit practice'),
  section: text.optional(),
});

/** One file of `config/care-rules/`; what may be left out has its default here. */
export const CareRuleSchema = z.strictObject({
  id,
  title: text,
  appliesTo: appliesTo.default({}),
  perMachine: z.boolean().default(false),
  optIn: z.boolean().default(false),
  anyOf: z.array(trigger).min(1, 'write at least one trigger'),
  gates: z.array(gate).default([]),
  parameters: z.record(parameterName, parameter).default({}),
  audience: z.enum(['homeowner', 'technician', 'either']),
  neverHomeowner: z.boolean().default(false),
  consequence: z.enum(['routine', 'care', 'urgent']),
  routineLine: z.boolean().default(false),
  minutes,
  people: z.union([z.literal(1), z.literal(2)], 'allowed is 1 or 2').default(1),
  skills: z.array(text).default([]),
  parts: z.array(text).default([]),
  steps: z.array(text).min(1, 'write at least one step'),
  quantities: z
    .array(
      z.enum([
        'feed-ration',
        'water-change',
        'top-up',
        'dechlorinator-for-change',
        'dechlorinator-for-top-up',
        'dechlorinator-first-fill',
        'lamp-hours',
        'rinse-media-share',
        'alkalinity-dose',
        'ice-opening',
        'net-area',
        'staged-stocking',
        'following-stock',
        'flush-standing-water',
        'outage-hours',
        'barley-straw',
      ]),
    )
    .default([]),
  cautions: z.array(id).default([]),
  evidence: z.array(text).default([]),
  reason: text,
  wouldChangeIf: text,
  notWithin: z.array(z.strictObject({ ruleId: id, days: z.int().min(1).max(120) })).default([]),
  notAfter: z.array(z.strictObject({ event: z.enum(EVENTS), days: z.int().min(1).max(120) })).default([]),
  alignWith: z.array(id).default([]),
  before: z.array(id).default([]),
  overtakenBy: z.array(id).default([]),
  source: text,
  cycle: z.enum(['count', 'cooling', 'warming', 'event', 'reading']),
});
export type CareRuleFile = z.output<typeof CareRuleSchema>;
