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
  it('is matched by the container file: every setting reaches the service', () => {
    const given = [...read('docker-compose.yml').matchAll(/^ {6}([A-Z_]+): /gm)].map((m) => m[1]!);
    expect(Object.keys(SETTINGS).filter((name) => !given.includes(name))).toEqual([]);
  });
  it('runs only scripts that exist behind every command', () => {
    const files = Object.values(scripts).flatMap((s) => s.split(' ').filter((w) => /\.(mjs|ts)$/.test(w)));
    expect(files.filter((file) => !fs.existsSync(path.join(root, file)))).toEqual([]);
  });
});

describe('what it is made with', () => {
  type Package = { dependencies?: Record<string, string>; devDependencies?: Record<string, string> };
  const folders = ['apps', 'packages'].flatMap((parent) => fs.readdirSync(path.join(root, parent)).map((name) => `${parent}/${name}`));
  const packages = ['.', ...folders].map((folder) => JSON.parse(read(`${folder}/package.json`)) as Package);
  it('is of exact versions', () => {
    const all = packages.flatMap((one) => Object.entries({ ...one.dependencies, ...one.devDependencies }));
    expect(all.filter(([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([]);
  });
  it('is listed in DEVELOPERS.md with its licence, and nothing else is', () => {
    const part = /## What it is made with\n([^]*?)\n## /.exec(read('DEVELOPERS.md'))![1]!;
    const listed = [...part.matchAll(/`([^`]+)`/g)].map((m) => m[1]!);
    const used = packages.flatMap((one) => Object.keys(one.dependencies ?? {})).filter((name) => !name.startsWith('@backsight/'));
    expect(listed.toSorted()).toEqual([...new Set(used)].toSorted());
    const lock = JSON.parse(read('package-lock.json')) as {
      packages: Record<string, { license?: string; integrity?: string; link?: true; dev?: true }>;
    };
    const installed = Object.entries(lock.packages).filter(([at, one]) => at.includes('node_modules/') && !one.link);
    expect(installed.filter(([, { integrity }]) => integrity === undefined).map(([at]) => at)).toEqual([]);
    const line = (licence: string) => part.split('\n').find((row) => row.startsWith(`| ${licence} |`)) ?? '';
    const wrong = listed.filter((name) => {
      const licence = installed.find(([at]) => at.endsWith(`node_modules/${name}`))?.[1].license;
      return (licence === 'MIT' || licence === 'Apache-2.0') && !line(licence).includes(`\`${name}\``);
    });
    expect(wrong).toEqual([]);
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
