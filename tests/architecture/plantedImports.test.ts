// The table of floors is proven line by line: a planted bad import is found, its lawful twin is let through.
import { describe, expect, it } from 'vitest';
import { checkFloors } from './checkFloors.ts';
import { parseAll } from './read.ts';

const messages = (path: string, text: string): string[] => checkFloors(parseAll([{ path, text: `// Planted.\n${text}\n` }]));
const importing = (path: string, specifier: string): string[] => messages(path, `import { a } from '${specifier}';`);

/** A file of each floor: what it must not import, and what it may. */
const CASTS: [string, string[], string[]][] = [
  [
    'packages/domain/src/people/rules.ts',
    [
      'node:fs',
      'fs',
      'zod',
      'react',
      'fastify',
      '@prisma/client',
      '../callbacks/rules.ts',
      '../refusals.ts',
      '@backsight/store/people',
      '@backsight/scheduling/slots',
      'luxonious',
    ],
    ['./state.ts', '../shared/outcome.ts', 'luxon'],
  ],
  ['packages/domain/src/people/stored.ts', ['node:fs', '../callbacks/rules.ts', 'pg'], ['zod', './state.ts', '../shared/outcome.ts']],
  ['packages/domain/src/shared/money.ts', ['zod', '../people/state.ts', '../refusals.ts'], ['./outcome.ts', 'luxon']],
  ['packages/domain/src/refusals.ts', ['./people/rules.ts', 'zod'], ['./people/refusals.ts', './shared/refusal.ts']],
  [
    'packages/scheduling/src/slots.ts',
    ['@backsight/domain/people/rules', '@backsight/store/schedule', 'highs', 'luxon', 'node:fs'],
    ['./travel.ts', '@backsight/domain/shared/interval', 'suncalc'],
  ],
  [
    'packages/statistics/src/rates.ts',
    ['@backsight/domain/callbacks/state', 'suncalc', 'node:crypto'],
    ['@backsight/domain/shared/interval', 'jstat'],
  ],
  [
    'packages/documents/src/report.ts',
    ['@backsight/store/jobs', '@backsight/usecases/jobs/book', 'fastify'],
    ['pdfkit', 'ical-generator', '@backsight/domain/people/state'],
  ],
  [
    'packages/contract/src/people.ts',
    ['@backsight/usecases/people/add', '@backsight/store/people', 'fastify', 'react'],
    ['zod', '@backsight/domain/refusals', './problem.ts'],
  ],
  [
    'packages/store/src/people.ts',
    ['./jobs.ts', './jobs/rows.ts', '@backsight/usecases/run', '@backsight/contract/people', 'fastify'],
    [
      './database.ts',
      './sql.ts',
      './people/rows.ts',
      '@prisma/client',
      '@prisma/client/runtime/client',
      'pg',
      'zod',
      'node:fs',
      '@backsight/domain/people/state',
      './generated/client.ts',
    ],
  ],
  ['packages/store/src/people/rows.ts', ['../jobs.ts', '../jobs/rows.ts'], ['./absences.ts', '../people.ts', '../database.ts']],
  ['packages/store/src/database.ts', ['./people.ts', './people/rows.ts'], ['./migrate.ts', 'pg']],
  [
    'packages/usecases/src/people/add.ts',
    [
      '../jobs/book.ts',
      '@backsight/contract/people',
      'fastify',
      '@prisma/client',
      'pg',
      'zod',
      'node:fs',
      '@backsight/store/generated/client',
    ],
    [
      './password.ts',
      './steps/check.ts',
      '../jobs/steps/lock.ts',
      '../run.ts',
      '@backsight/domain/people/rules',
      '@backsight/scheduling/slots',
      '@backsight/statistics/rates',
      '@backsight/store/people',
      '@backsight/documents/report',
      'luxon',
      '@node-rs/argon2',
      'node:crypto',
    ],
  ],
  ['packages/usecases/src/people/steps/check.ts', ['../../jobs/book.ts'], ['./lock.ts', '../../jobs/steps/lock.ts', '../../run.ts']],
  [
    'packages/usecases/src/run.ts',
    ['./people/add.ts', '@backsight/contract/people'],
    ['./clock.ts', './people/steps/check.ts', '@backsight/store/database'],
  ],
  [
    'apps/api/src/routes/people.ts',
    ['./jobs.ts', '../jobs/mail.ts', '../app.ts', '@backsight/store/people', '@backsight/domain/people/rules', '@prisma/client', 'pg'],
    [
      '../http/problem.ts',
      '../config.ts',
      '@backsight/contract/people',
      '@backsight/usecases/people/add',
      'fastify',
      './people/absences.ts',
    ],
  ],
  [
    'apps/api/src/jobs/mail.ts',
    ['./sweep.ts', '../routes/people.ts', '@backsight/store/mail', 'highs'],
    ['@backsight/usecases/mail/send', 'nodemailer'],
  ],
  [
    'apps/api/src/jobs/planner-worker.ts',
    ['@backsight/store/schedule', './mail.ts', 'highs'],
    ['../adapters/solver/highs.ts', '@backsight/scheduling/plan/planDay', 'node:worker_threads'],
  ],
  ['apps/api/src/adapters/solver/highs.ts', ['@backsight/store/schedule', '../app.ts'], ['highs', '@backsight/scheduling/plan/solver']],
  [
    'apps/api/src/http/session.ts',
    ['@backsight/store/database', '../routes/people.ts', 'pg', '../app.ts'],
    ['./problem.ts', '@backsight/usecases/people/signIn', 'fastify', '@backsight/domain/refusals'],
  ],
  ['apps/api/src/app.ts', [], ['@backsight/store/database', './routes/people.ts', './http/problem.ts']],
  [
    'apps/web/src/features/people/List.tsx',
    [
      '../jobs/List.tsx',
      '../jobs.tsx',
      '../peoples/List.tsx',
      '@backsight/store/people',
      '@backsight/usecases/people/add',
      '@backsight/domain/people/rules',
      '@backsight/domain/procedures/step',
      'pg',
      'node:fs',
    ],
    [
      './Row.tsx',
      './List.module.css',
      '../../ui/Table.tsx',
      '../../api/people.ts',
      '@backsight/contract/people',
      '@backsight/domain/shared/outcome',
      '@backsight/domain/sitework/compare',
      'react',
      'react/jsx-runtime',
      '@mantine/core',
      '@mantine/core/styles.css',
      '@tanstack/react-query',
      'luxon',
      'zod',
    ],
  ],
  [
    'apps/web/src/ui/Table.tsx',
    ['../features/people/List.tsx', '../app/router.tsx', '@backsight/store/people'],
    ['./Field.tsx', '@mantine/core'],
  ],
  ['apps/web/src/app/router.tsx', ['@backsight/store/people'], ['../features/people/List.tsx', '../ui/Table.tsx']],
  ['tests/domain/a.test.ts', [], ['../../apps/api/src/app.ts', '@backsight/store/people', 'node:fs', 'vitest']],
];

describe.each(CASTS)('%s', (path, refused, lawful) => {
  if (refused.length > 0)
    it.each(refused)('may not import %s', (specifier) =>
      expect(importing(path, specifier)).toEqual([expect.stringMatching(new RegExp(`^${path}:2 imports ${specifier}.* Rule: .{20,}`))]),
    );
  it.each(lawful)('may import %s', (specifier) => expect(importing(path, specifier)).toEqual([]));
});

describe('types', () => {
  const RULES = 'packages/domain/src/callbacks/rules.ts';
  const QUIET: [string, string][] = [
    [RULES, '../procedures/step.ts'],
    [RULES, '../refusals.ts'],
    ['packages/domain/src/shared/outcome.ts', '../refusals.ts'],
    ['apps/web/src/features/people/List.tsx', '@backsight/domain/procedures/step'],
    ['apps/api/src/http/session.ts', '@backsight/store/database'],
  ];
  it.each(QUIET)('%s may take types of %s', (path, specifier) =>
    expect(messages(path, `import type { A } from '${specifier}';`)).toEqual([]),
  );

  const FOUND: [string, string][] = [
    ['packages/domain/src/shared/money.ts', '../people/state.ts'],
    ['packages/store/src/people.ts', './jobs.ts'],
    ['apps/api/src/routes/people.ts', '@backsight/store/people'],
    ['packages/usecases/src/people/add.ts', '../jobs/book.ts'],
    ['apps/web/src/features/people/List.tsx', '../jobs/List.tsx'],
  ];
  it.each(FOUND)('%s may not take types of %s', (path, specifier) =>
    expect(messages(path, `import type { A } from '${specifier}';`)).toHaveLength(1),
  );

  it('says so when only `type` is missing', () =>
    expect(importing(RULES, '../procedures/step.ts')).toEqual([expect.stringContaining('(`import type` would be allowed)')]));
});

describe('other ways in', () => {
  const PATH = 'packages/domain/src/people/rules.ts';
  it.each(["export * from 'node:fs';", "const fs = await import('node:fs');", "const fs = require('fs');"])('finds %s', (text) =>
    expect(messages(PATH, text)).toHaveLength(1),
  );

  it('stays quiet about a job that starts its worker by the name of the file', () => {
    const files = {
      'apps/api/src/jobs/planner.ts': "new Worker(new URL('./planner-worker.ts', import.meta.url));",
      'apps/api/src/jobs/planner-worker.ts': '',
    };
    expect(checkFloors(parseAll(Object.entries(files).map(([path, text]) => ({ path, text }))))).toEqual([]);
  });
});

describe('spelling', () => {
  const FOUND: [string, string][] = [
    ['packages/usecases/src/people/add.ts', '../../../domain/src/people/rules.ts'],
    ['packages/domain/src/people/rules.ts', '@backsight/domain/shared/outcome'],
  ];
  it.each(FOUND)('%s may not write %s', (path, specifier) =>
    expect(importing(path, specifier)).toEqual([expect.stringContaining('Rule: relative paths inside a package')]),
  );
});
