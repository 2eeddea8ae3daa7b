// npm test: makes what is missing, then types and lint, then the tests; with --deep the long ones too. Words after `--` go to the test runner.
import path from 'node:path';
import { checkNode, ensureBuilt, ensureGenerated, ensurePackages, root, run, say } from './lib.mjs';

const tool = (name) => path.join(root, 'node_modules', name);

checkNode();
ensurePackages();
ensureGenerated();
ensureBuilt();
say('checking types, lint');
run(process.execPath, [tool('oxlint/bin/oxlint'), '--type-aware', '--type-check', '--quiet']);
const words = process.argv.slice(2).filter((word) => word !== '--deep');
const deep = words.length < process.argv.length - 2;
const chosen = deep || words.includes('--project') ? [] : ['pure', 'service', 'browser'].flatMap((name) => ['--project', name]);
say('tests');
run(process.execPath, [tool('vitest/vitest.mjs'), 'run', '--config', 'tests/vitest.config.ts', ...chosen, ...words]);
