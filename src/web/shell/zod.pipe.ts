import type { PipeTransform } from '@nestjs/common';
import type { z } from 'zod';
import { InvalidFormError } from './invalid-form.error.js';

/** Turns a body, a query or a parameter into a typed value, or refuses it field by field. */
export class ZodPipe<S extends z.ZodType> implements PipeTransform {
  constructor(private readonly schema: S) {}

  transform(value: unknown): z.output<S> {
    const result = this.schema.safeParse(withoutToken(value));
    if (!result.success) throw new InvalidFormError(result.error.issues);
    return result.data;
  }
}

/** The form token has been checked by its guard and is no field of the schema. */
function withoutToken(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || !('_token' in value)) return value;
  const { _token, ...fields } = value as Record<string, unknown>;
  return fields;
}
