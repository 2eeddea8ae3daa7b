// npm test: makes what is missing, then types and lint, then the tests; with --deep the long ones too. Words after `--` go to the test runner.
import path from 'node:path';
import { checkNode, ensureBuilt, ensureGenerated, ensurePackages, root, run, say } from './lib.mjs';

checkNode();
ensurePackages();
ensureGenerated();
ensureBuilt();
say('checking types');
run(process.execPath, [path.join(root, 'node_modules/typescript/bin/tsc'), '-p', root]);
say('lint');
run(process.execPath, [path.join(root, 'node_modules/oxlint/bin/oxlint'), '--type-aware', '--quiet']);
const words = process.argv.slice(2).filter((word) => word !== '--deep');
const deep = words.length < process.argv.length - 2;
const chosen = deep || words.includes('--project') ? [] : ['pure', 'service', 'browser'].flatMap((name) => ['--project', name]);
run(process.execPath, [
  path.join(root, 'node_modules/vitest/vitest.mjs'),
  'run',
  '--config',
  'tests/vitest.config.ts',
  ...chosen,
  ...words,
]);
