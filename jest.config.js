import { readFileSync } from 'node:fs';

const swcrc = JSON.parse(readFileSync(new URL('./.swcrc', import.meta.url), 'utf8'));

export default {
  testEnvironment: 'node',
  roots: ['<rootDir>/test'],
  testMatch: ['**/*.spec.ts', '**/*.spec.tsx'],
  extensionsToTreatAsEsm: ['.ts', '.tsx'],
  moduleNameMapper: { '^(\\.{1,2}/.*)\\.js$': '$1' },
  transform: { '^.+\\.tsx?$': ['@swc/jest', { ...swcrc, swcrc: false }] },
  testTimeout: 30_000,
  maxWorkers: 2,
  reporters: [['default', { summaryThreshold: 0 }], '<rootDir>/src/tools/tally-reporter.mjs'],
};
