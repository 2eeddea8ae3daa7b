// Every regular expression of the program against pumped strings: none may take more than linear or little more time, whatever is sent
// (OWASP, "Regular expression Denial of Service"; CWE-1333). Time of the processor is counted, not of the clock.
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { parseAll, repository } from './read.ts';
import { walk, type Node } from './tree.ts';
import { size } from '../support/size.ts';

/** Longer than any text that the contract lets in: most end at 4,000 signs, the longest at 20,000. */
const LENGTH = size(25_000, 50_000);
const MOST_MS = 900;

type Pattern = { at: string; source: string; flags: string };

/** Regular expressions as they are written, and those made of a plain text. */
function patternsIn(): { written: Pattern[]; made: string[] } {
  const [written, made]: [Pattern[], string[]] = [[], []];
  const ours = repository().filter(({ path: at }) => /^(packages|apps)\/[^/]+\/src\/|^apps\/web\/sw/.test(at));
  for (const { path: file, program, lineAt } of parseAll(ours)) {
    walk(program, (node: Node) => {
      const { regex, callee, start } = node as unknown as { regex?: { pattern: string; flags: string }; callee?: Node; start: number };
      const at = `${file}:${lineAt(start)}`;
      if (regex) written.push({ at, source: regex.pattern, flags: regex.flags });
      if (node.type !== 'NewExpression' || callee?.['name'] !== 'RegExp') return;
      const [first] = node['arguments'] as Node[];
      if (first?.type === 'Literal') written.push({ at, source: String(first['value']), flags: '' });
      else made.push(file);
    });
  }
  return { written, made };
}

/** Where a pattern is put together: of what, so that nobody outside words it. */
const MADE_OF: Record<string, string> = {
  'apps/api/src/http/client/assets.ts': 'the names of two encodings',
  'apps/web/src/app/goTo/choices.ts': 'the letters and digits that are typed, each run a word',
  'packages/domain/src/agreements/differs.ts': 'the names of the facts of an agreement',
  'packages/domain/src/procedures/table.ts': 'the comparisons of rules',
};
/** What reads only the settings and the files of this machine. */
const OF_THIS_MACHINE = /^(apps\/api\/src\/adapters\/roads\/askJson|packages\/store\/src\/embedded\/\w+)\.ts:/;

function slowOf(patterns: readonly Pattern[], length: number, mostMs: number): unknown[] {
  const script = path.resolve(import.meta.dirname, '../support/pump.mjs');
  const { stdout, stderr, status } = spawnSync(process.execPath, [script, String(length), String(mostMs)], {
    input: JSON.stringify(patterns),
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  expect(status, stderr).toBe(0);
  return JSON.parse(stdout) as unknown[];
}

let found: ReturnType<typeof patternsIn>;
beforeAll(() => {
  found = patternsIn();
}, 120_000);

describe('a regular expression', () => {
  it('is found slow when it is (planted)', () => {
    const planted = ['(a+)+$', '^(\\d+)*x$', '(\\w+\\s?)*:$', '^(a|a)*$'].map((source) => ({ at: 'planted', source, flags: '' }));
    expect(slowOf(planted, 30, 20)).toHaveLength(planted.length);
  }, 60_000);
  it(`of the program takes ${LENGTH} signs of anything`, () => {
    const { written } = found;
    expect(written.length).toBeGreaterThan(200);
    const sent = written.filter(({ at }) => !OF_THIS_MACHINE.test(at));
    const unique = [...new Map(sent.map((one) => [`${one.source}/${one.flags}`, one])).values()];
    expect(slowOf(unique, LENGTH, MOST_MS)).toEqual([]);
  }, 300_000);
  it('that is put together is made of nothing that is sent', () => {
    expect([...new Set(found.made)].toSorted()).toEqual(Object.keys(MADE_OF).toSorted());
  });
});
