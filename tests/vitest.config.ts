// Projects: pure (no database), service (real PostgreSQL), browser (real Chromium against the real service), and deep, the long
// ones, which run only when asked for.
import path from 'node:path';
import { defineConfig } from 'vitest/config';
import LongestFirst from './support/sequencer.ts';

const root = path.resolve(import.meta.dirname, '..');
const setup = (name: string): string => path.join(root, `tests/support/${name}.setup.ts`);
const withDatabase = {
  globalSetup: [setup('postgres')],
  testTimeout: 30_000,
  hookTimeout: 120_000,
  expect: { poll: { timeout: 30_000 } }, // a busy machine is no reason to fail
};

export default defineConfig({
  root,
  test: {
    experimental: { fsModuleCache: true }, // kept by content: the projects share what was once made of a source, and so does the next run
    maxWorkers: 3, // of two processors: browsers and databases are often waited for
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        root,
        test: {
          name: 'pure',
          include: ['tests/architecture/**/*.test.ts', 'tests/domain/**/*.test.ts', 'tests/published/**/*.test.ts'],
          isolate: false, // the files share nothing but modules, which are then loaded once
          testTimeout: 30_000,
        },
      },
      {
        root,
        test: {
          name: 'service',
          include: ['tests/usecases/**/*.test.ts', 'tests/http/**/*.test.ts', 'tests/faults/**/*.test.ts', 'tests/upgrade/**/*.test.ts'],
          isolate: false, // each file has a database and a service of its own; modules are loaded once
          ...withDatabase,
        },
      },
      {
        root,
        test: { name: 'deep', include: ['tests/deep/**/*.test.ts'], sequence: { groupOrder: 1 }, ...withDatabase, testTimeout: 600_000 },
      },
      {
        root,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          isolate: false,
          ...withDatabase,
          globalSetup: [setup('postgres'), setup('web')],
          setupFiles: [setup('sameHour')],
          testTimeout: 120_000,
        },
      },
    ],
  },
});
