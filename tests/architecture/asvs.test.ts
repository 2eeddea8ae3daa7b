// The checklist of OWASP ASVS 5.0.0 in DEVELOPERS.md: each requirement of level 1 and 2 once, met or not applicable, and what it names exists.
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ASVS_LEVELS_1_2 } from '../published/data/asvs.ts';

const root = path.resolve(import.meta.dirname, '../..');
const developers = fs.readFileSync(path.join(root, 'DEVELOPERS.md'), 'utf8');
const part = (title: string): string => developers.split(/^## /m).find((one) => one.startsWith(title)) ?? '';
const required = Object.entries(ASVS_LEVELS_1_2).flatMap(([section, numbers]) => numbers.map((n) => `${section}.${n}`));

type Row = { numbers: string[]; words: string; status: string; where: string };
const rows: Row[] = [...part('OWASP ASVS').matchAll(/^\| ([\d. ]+) \| ([^|]+) \| ([^|]+) \| ([^|]+) \|$/gm)].map(
  ([, numbers, words, status, where]) => ({ numbers: numbers!.split(' '), words: words!, status: status!, where: where! }),
);

describe('the checklist', () => {
  it('has every number of level 1 and 2 exactly once', () => {
    expect(required).toHaveLength(254);
    expect(rows.flatMap(({ numbers }) => numbers).toSorted()).toEqual(required.toSorted());
  });
  it('says of each that it is met, or not applicable', () => {
    expect(rows.filter(({ status }) => status !== 'met' && status !== 'not applicable')).toEqual([]);
  });
  it('names only files that exist, and for what is met a file, a setting or a part of the document', () => {
    const files = (where: string) =>
      [...where.matchAll(/`((?:apps|packages|prisma|tests)\/[\w./-]+|[\w.-]+\.(?:json|yml|md))`/g)].map((m) => m[1]!);
    expect(rows.flatMap(({ where }) => files(where)).filter((file) => !fs.existsSync(path.join(root, file)))).toEqual([]);
    const decisions = part('Security decisions');
    const titles = rows.flatMap(({ where }) => [...where.matchAll(/"Security decisions", ([a-z ]+)/g)].map((m) => m[1]!.trim()));
    expect(
      titles.filter((title) => !decisions.toLowerCase().includes(`**${title}.**`)),
      'parts of "Security decisions"',
    ).toEqual([]);
  });
});
