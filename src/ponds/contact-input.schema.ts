import { z } from 'zod';
import { calendarDate, neededText, oneOf, text, wholeNumberWithin } from './typed-fields.js';

export const CONTACT_ROLES = ['homeowner', 'caretaker', 'neighbour', 'builder'] as const;

/** ISO weekday and local hour at which a homeowner's digest goes out unless they choose: Saturday, eight in the morning. */
const DIGEST_WEEKDAY = 6;
const DIGEST_HOUR = 8;

/** A person of a pond as typed. With an email they get a person; without one they go on the call list. */
export const ContactInputSchema = z.strictObject({
  id: z.uuid().optional(),
  name: neededText('contact name', 120),
  role: oneOf('contact role', CONTACT_ROLES).default('homeowner'),
  email: z
    .string()
    .trim()
    .toLowerCase()
    .max(254)
    .pipe(z.email({ error: 'email: write an address such as name@example.com, or leave it empty.' }))
    .nullable()
    .default(null),
  phone: text('phone', 40).default(''),
  language: z
    .string()
    .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, { error: 'language: a BCP 47 tag such as en, es or de.' })
    .max(10)
    .default('en'),
  units: oneOf('units', ['us', 'metric']).nullable().default(null),
  getsMail: z.boolean().default(true),
  digestWeekday: wholeNumberWithin('digest weekday, 1 Monday to 7 Sunday', 1, 7).default(DIGEST_WEEKDAY),
  digestHour: wholeNumberWithin('digest hour', 0, 23).default(DIGEST_HOUR),
  startedOn: calendarDate('contact since').optional(),
});

export type ContactInput = z.output<typeof ContactInputSchema>;
export type ContactInputTyped = z.input<typeof ContactInputSchema>;
