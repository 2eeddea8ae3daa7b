// What README.md and DEVELOPERS.md name exists: commands, settings, files.
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { SETTINGS } from '../../apps/api/src/config.ts';

const root = path.resolve(import.meta.dirname, '../..');
const read = (name: string): string => fs.readFileSync(path.join(root, name), 'utf8');
const scripts = (JSON.parse(read('package.json')) as { scripts: Record<string, string> }).scripts;
const DOCUMENTS = ['README.md', 'DEVELOPERS.md'] as const;

/** The script names of every `npm ...` in a text. */
const commandsIn = (text: string): string[] => [...text.matchAll(/\bnpm (?:run ([\w:]+)|(start|test)\b)/g)].map((m) => (m[1] ?? m[2])!);

describe.each(DOCUMENTS)('%s', (name) => {
  it('names only commands that exist', () => {
    const commands = commandsIn(read(name));
    expect(commands.length).toBeGreaterThan(0);
    expect(commands.filter((c) => !(c in scripts))).toEqual([]);
  });
  it('names only files that exist', () => {
    const linked = [...read(name).matchAll(/\]\((?!https?:)([^)#]+)\)/g)].map((m) => m[1]!);
    const quoted = [...read(name).matchAll(/`((?:apps|packages|prisma|tests)(?:\/[\w.-]+)*)`/g)].map((m) => m[1]!);
    expect([...linked, ...quoted].filter((file) => !fs.existsSync(path.join(root, file)))).toEqual([]);
  });
});

describe('README.md', () => {
  it('lists every setting, and no other', () => {
    const listed = [...read('README.md').matchAll(/^\| `([A-Z_]+)` \|/gm)].map((m) => m[1]!);
    expect(listed.toSorted()).toEqual(Object.keys(SETTINGS).toSorted());
  });
  it('runs only scripts that exist behind every command', () => {
    const files = Object.values(scripts).flatMap((s) => s.split(' ').filter((w) => /\.(mjs|ts)$/.test(w)));
    expect(files.filter((file) => !fs.existsSync(path.join(root, file)))).toEqual([]);
  });
});

describe('a command in a document', () => {
  it.each([
    ['use `npm run nothing`', ['nothing']],
    ['npm start, then npm test', ['start', 'test']],
    ['npm packages', []],
  ])('is found in: %s', (text, commands) => {
    expect(commandsIn(text)).toEqual(commands);
  });
});
