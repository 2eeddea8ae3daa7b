// Runs the benches named on the command line, all without a name: a table on the screen, the rows as JSON in bench-results/.
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Bench, Row } from './bench.ts';

const HERE = import.meta.dirname;
const RESULTS = path.resolve(HERE, '../../bench-results');
const SUFFIX = '.bench.ts';

const shown = (value: string | number | null): string =>
  value === null
    ? '-'
    : typeof value === 'number' && !Number.isInteger(value)
      ? value.toFixed(Math.abs(value) < 10 ? 3 : 1)
      : String(value);

/** Prints a row below the head; columns are as wide as their name or 14. */
function printer(): (row: Row) => void {
  let widths: number[] | null = null;
  const line = (cells: readonly string[]) => console.log(cells.map((cell, at) => cell.padEnd(widths![at]!)).join('  '));
  return (row) => {
    if (widths === null) {
      widths = Object.entries(row).map(([name, value]) => Math.max(name.length, shown(value).length, 14));
      line(Object.keys(row));
    }
    line(Object.values(row).map(shown));
  };
}

const all = readdirSync(HERE)
  .filter((file) => file.endsWith(SUFFIX))
  .map((file) => file.slice(0, -SUFFIX.length));
const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !all.includes(name));
if (unknown.length > 0) {
  console.error(`No bench ${unknown.join(', ')}. There are: ${all.join(', ')}.`);
  process.exit(1);
}

const began = performance.now();
const secondsSince = (from: number): number => Math.round((performance.now() - from) / 1000);
const machine = { node: process.version, cores: os.cpus().length, model: os.cpus()[0]?.model ?? 'unknown' };
for (const name of asked.length > 0 ? asked : all) {
  const { default: bench } = (await import(path.join(HERE, name + SUFFIX))) as { default: Bench };
  console.log(`\n${name}: ${bench.about}\n(${machine.cores} cores, load ${os.loadavg()[0]!.toFixed(1)}, Node ${machine.node})`);
  const rows: Row[] = [];
  const print = printer();
  const from = performance.now();
  await bench.run((row) => {
    rows.push(row);
    print(row);
  }, asked.includes(name));
  const seconds = secondsSince(from);
  console.log(`(${seconds} s)`);
  mkdirSync(RESULTS, { recursive: true });
  writeFileSync(path.join(RESULTS, `${name}.json`), `${JSON.stringify({ name, about: bench.about, machine, seconds, rows }, null, 2)}\n`);
}
console.log(`\nAll of it took ${(secondsSince(began) / 60).toFixed(1)} minutes.`);
