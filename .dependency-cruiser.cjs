// Imports go one way; see DEVELOPERS.md, "How the tree reads".
const layers = [
  'core',
  'platform',
  'config',
  'database',
  'jobs',
  'accounts',
  'climate',
  'ponds',
  'care-calendar',
  'visits',
  'dispatch|reminders|feeds',
  'web|cli',
];
const features = 'accounts|climate|ponds|care-calendar|visits|dispatch|reminders|feeds';

module.exports = {
  forbidden: [
    ...layers.map((own, i) => ({
      name: `${own.split('|').join('-')}-looks-down-only`,
      comment: 'a folder imports only from folders before it in the list of layers',
      severity: 'error',
      from: { path: `^src/(${own})/` },
      to: { path: `^src/(${layers.slice(i).join('|')})/`, pathNot: '^src/$1/' },
    })),
    {
      name: 'core-is-pure',
      comment: 'clocks, files and frameworks come into the core as values',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { pathNot: '^src/core/' },
    },
    {
      name: 'front-door-only',
      comment: 'a feature is entered through its index.ts',
      severity: 'error',
      from: { path: '^src/([^/]+)/' },
      to: { path: `^src/(${features})/`, pathNot: ['^src/$1/', '^src/[^/]+/index[.]ts$'] },
    },
    {
      name: 'http-stays-in-web',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(web/|main[.]ts)' },
      to: { path: 'node_modules/(express|@nestjs/platform-express)/' },
    },
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
  },
};
