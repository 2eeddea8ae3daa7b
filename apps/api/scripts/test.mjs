// npm test: makes what is missing, then types and lint, then the tests; with --deep the long ones too, and those about time once more in other
// zones and on the days on which the clocks change. Words after `--` go to the test runner.
import fs from 'node:fs';
import path from 'node:path';
import { checkNode, ensureBuilt, ensureGenerated, ensurePackages, root, run, say } from './lib.mjs';

/** Zones in which the machine may stand: that of servers, the firm's own, and one that is a day ahead with its summer in its winter. */
const ZONES = ['UTC', 'America/Chicago', 'Pacific/Auckland'];
/** A quarter of an hour before the clocks change in Wisconsin: second Sunday of March, first of November, 2 AM (15 U.S.C. 260a). */
const CLOCK_CHANGES = ['2027-03-14T07:45:00Z', '2027-11-07T06:45:00Z', '2028-03-12T07:45:00Z', '2028-11-05T06:45:00Z'];

const tool = (name) => path.join(root, 'node_modules', name);
const vitest = (words, env = {}) =>
  run(process.execPath, [tool('vitest/vitest.mjs'), 'run', '--config', 'tests/vitest.config.ts', ...words], {
    env: { ...process.env, ...env },
  });

/** The test files whose first line has the tag: `// Tag: time.`, or `// Tag: time, any day.` where no test of the file names a day. */
const tagged = (tag) =>
  fs
    .readdirSync(path.join(root, 'tests'), { recursive: true })
    .map((name) => path.join('tests', name))
    .filter((name) => name.endsWith('.test.ts') && fs.readFileSync(path.join(root, name), 'utf8').startsWith(`// Tag: ${tag}`));

function testTime() {
  for (const TZ of ZONES) {
    say(`tests about time, where the machine stands in ${TZ}`);
    vitest(tagged('time'), { TZ });
  }
  for (const FIRST_NOW of CLOCK_CHANGES) {
    say(`tests that hold on any day, as if now were ${FIRST_NOW}`);
    vitest(tagged('time, any day'), { TZ: 'America/Chicago', FIRST_NOW });
  }
}

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
vitest([...chosen, ...words], deep ? { TEST_DEEP: '1' } : {});
if (deep && words.length === 0) testTime();
