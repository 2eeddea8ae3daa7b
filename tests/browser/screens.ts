// npm run screens: writes a picture of every screen, for each role and both widths, to the folder screens/.
import { spawnSync } from 'node:child_process';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '../..');
const vitest = path.join(root, 'node_modules/vitest/vitest.mjs');
const done = spawnSync(
  process.execPath,
  [vitest, 'run', '--config', 'tests/vitest.config.ts', '--project', 'browser', 'tests/browser/accessibility.test.ts'],
  {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, SCREENS: path.join(root, 'screens') },
  },
);
process.exit(done.status ?? 1);
