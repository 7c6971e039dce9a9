import { z } from 'zod';
import type { ReadingQuantity } from '../../core/care/care-rule.js';

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
] as const satisfies readonly ReadingQuantity[];

const instant = z.iso.datetime({ offset: true });
const line = (longest: number) => z.string().max(longest).default('');

const Dose = z.strictObject({
  product: z.string().min(1).max(200),
  amountG: z.number(),
  lot: line(80),
  waterL: z.number().nullable().default(null),
});
const Serial = z.strictObject({ of: z.enum(['lamp', 'media', 'other']), serial: z.string().min(1).max(80) });
const Part = z.strictObject({
  id: z.uuid(),
  partId: z.uuid().nullable().default(null),
  name: z.string().min(1).max(200),
  amount: z.number(),
  unit: z.string().min(1).max(20),
  careTaskId: z.uuid().nullable().default(null),
  lot: line(80),
});
const FollowUp = z.strictObject({
  id: z.uuid(),
  what: z.string().min(1).max(2_000),
  untilOn: z.iso.date().nullable().default(null),
  careTaskId: z.uuid().nullable().default(null),
});

/** A closing as a program sends it. Every id is made on the phone, so that it may be sent as often as it takes. */
export const CloseVisitSchema = z.strictObject({
  closingId: z.uuid(),
  closedAt: instant,
  note: z.string().max(10_000).default(''),
  homeownerPresent: z.boolean().nullable().default(null),
  tasks: z
    .array(
      z.strictObject({
        careTaskId: z.uuid(),
        outcome: z.enum(['done', 'partly', 'not-done']),
        doneShare: z.number().gt(0).lt(1).nullable().default(null),
        remark: z.string().max(2_000).default(''),
        actuals: z.record(z.string().max(40), z.number()).default({}),
        doses: z.array(Dose).max(10).default([]),
        serials: z.array(Serial).max(10).default([]),
      }),
    )
    .max(60)
    .default([]),
  readings: z
    .array(z.strictObject({ id: z.uuid(), quantity: z.enum(QUANTITIES), value: z.number(), takenAt: instant }))
    .max(60)
    .default([]),
  parts: z.array(Part).max(60).default([]),
  followUps: z.array(FollowUp).max(20).default([]),
  arrivedAt: instant.nullable().default(null),
  leftAt: instant.nullable().default(null),
  /** The day of the visit as the phone had it. */
  plannedOn: z.iso.date().nullable().default(null),
});
export type CloseVisitBody = z.output<typeof CloseVisitSchema>;
