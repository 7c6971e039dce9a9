import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { loadCareRules } from '../../src/config/care-rules.js';
import type { CareRule } from '../../src/core/care/care-rule.js';

export const CONFIG_DIRECTORY = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../config');

let rules: readonly CareRule[] | null = null;

/** The rules as shipped, read once. */
export function shippedRules(): readonly CareRule[] {
  rules ??= loadCareRules(CONFIG_DIRECTORY);
  return rules;
}

export function shippedRule(id: string): CareRule {
  const rule = shippedRules().find((candidate) => candidate.id === id);
  if (!rule) throw new Error(`no rule ${id}`);
  return rule;
}
