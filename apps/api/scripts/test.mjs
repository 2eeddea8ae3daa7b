// npm test: makes what is missing, then types, then every test. Words after `--` go to the test runner.
import path from 'node:path';
import { checkNode, ensureBuilt, ensureGenerated, ensurePackages, root, run, say } from './lib.mjs';

checkNode();
ensurePackages();
ensureGenerated();
ensureBuilt();
say('checking types');
run(process.execPath, [path.join(root, 'node_modules/typescript/bin/tsc'), '-p', root]);
run(process.execPath, [path.join(root, 'node_modules/vitest/vitest.mjs'), 'run', '--config', 'tests/vitest.config.ts', ...process.argv.slice(2)]);
