// Runs in a process of its own: patterns against strings that make a backtracking engine go over the same place again and again.
// Reads [{ source, flags }] from the standard input; answers, for each that took too long, what it was given and how long by the processor.
import fs from 'node:fs';
import vm from 'node:vm';

const [, , size, mostMs] = process.argv;
const LENGTH = Number(size);
const PLAIN = ['a', '0', ' ', '\n', '-', '.', ',', '"', '/', '_', '@', '<', '(', 'a ', '0.', '0,', '\n '];
const ENDS = ['', '!', '\n', '\u0000'];

/** Signs that stand in the pattern itself fit it best. */
const unitsOf = (source) => {
  const literal = [
    ...new Set(
      source
        .replace(/\\u\{?[\da-f]+\}?|\\[a-z]|[\^$.*+?()[\]{}|\\]/gi, ' ')
        .replace(/\s+/g, '')
        .slice(0, 40),
    ),
  ];
  const words = source.match(/[A-Za-z]{2,12}/g)?.slice(0, 6) ?? [];
  return [...new Set([...PLAIN, ...literal, ...words])];
};
const cpuMs = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const slow = [];
const run = new vm.Script('for (const text of texts) { pattern.lastIndex = 0; pattern.test(text); }');
for (const { source, flags, at } of JSON.parse(fs.readFileSync(0, 'utf8'))) {
  for (const unit of unitsOf(source)) {
    const pumped = unit.repeat(Math.ceil(LENGTH / unit.length)).slice(0, LENGTH);
    const first = unit === 'a' ? ['', pumped + pumped] : [];
    const texts = [...ENDS.map((end) => pumped + end), `x${pumped}!`, ...first];
    const began = cpuMs();
    let stopped = false;
    try {
      run.runInNewContext({ pattern: new RegExp(source, flags.replace(/[gy]/g, '')), texts }, { timeout: Number(mostMs) * 15 });
    } catch {
      stopped = true;
    }
    const took = cpuMs() - began;
    if (stopped || took > Number(mostMs)) {
      slow.push({ at, source, flags, unit, ms: Math.round(took), stopped });
      break;
    }
  }
}
process.stdout.write(JSON.stringify(slow));
