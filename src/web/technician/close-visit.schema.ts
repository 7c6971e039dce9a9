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
] as const satisfies readonly ReadingQuantity[];

const instant = z.iso.datetime({ offset: true });

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
      }),
    )
    .max(60)
    .default([]),
  readings: z
    .array(z.strictObject({ id: z.uuid(), quantity: z.enum(QUANTITIES), value: z.number(), takenAt: instant }))
    .max(60)
    .default([]),
});
export type CloseVisitBody = z.output<typeof CloseVisitSchema>;
