// Every check is itself proven: a planted fault is found, named with its file and line, and its lawful twin is let through.
import { describe, expect, it } from 'vitest';
import { checkCircles } from './checkCircles.ts';
import { checkDeadFiles } from './checkDeadFiles.ts';
import { checkFloors } from './checkFloors.ts';
import { checkHelp } from './checkHelp.ts';
import { checkLeftovers } from './checkLeftovers.ts';
import { checkPurity } from './checkPurity.ts';
import { checkSizes } from './checkSizes.ts';
import { checkUseCases } from './checkUseCases.ts';
import { type ParsedFile, parseAll } from './read.ts';

type Check = (files: readonly ParsedFile[]) => string[];

const run = (check: Check, files: Record<string, string>): string[] =>
  check(parseAll(Object.entries(files).map(([path, text]) => ({ path, text }))));

const lines = (count: number, line = '// a line'): string => Array.from({ length: count }, () => `${line}\n`).join('');
const longFunction = (length: number): string => `const plan = () => {\n${lines(length - 2)}};\n`;
const component = (length: number): string => `export const Card = () => {\n${lines(length - 3)}  return <p>Card</p>;\n};\n`;

describe('sizes', () => {
  const FOUND: [string, string, string, string][] = [
    ['a file of 301 lines', 'packages/domain/src/people/a.ts', lines(301), 'a.ts:1 has 301 lines'],
    ['a file of 301 lines without a last newline', 'packages/domain/src/people/a.ts', lines(301).trimEnd(), 'a.ts:1 has 301 lines'],
    ['an arrow of 61 lines', 'packages/domain/src/people/a.ts', longFunction(61), 'a.ts:1 plan has 61 lines'],
    ['a function of 61 lines', 'tests/domain/a.test.ts', `\nfunction plan() {\n${lines(59)}}\n`, 'a.test.ts:2 plan has 61 lines'],
    ['a method of 61 lines', 'packages/domain/src/people/a.ts', `const o = { plan() {\n${lines(59)}} };\n`, 'a.ts:1 plan has 61 lines'],
    [
      'a test of 61 lines',
      'tests/domain/a.test.ts',
      `it('a', () => {\n${lines(59)}});\n`,
      'a.test.ts:1 a function without a name has 61 lines',
    ],
    ['a component of 121 lines', 'apps/web/src/ui/Card.tsx', component(121), 'Card.tsx:1 Card has 121 lines. Rule: a React component'],
    [
      'a hook of 61 lines',
      'apps/web/src/ui/use.tsx',
      component(61).replace('Card =', 'useCard ='),
      'use.tsx:1 useCard has 61 lines. Rule: a function',
    ],
    [
      'JSX only of an inner function',
      'apps/web/src/ui/Card.tsx',
      `const Card = () => {\n${lines(59)}  const row = () => { return <p />; };\n  return row;\n};\n`,
      'Card has 63 lines. Rule: a function',
    ],
  ];
  it.each(FOUND)('finds %s', (_, path, text, message) => expect(run(checkSizes, { [path]: text }).join('\n')).toContain(message));

  const QUIET: [string, string, string][] = [
    ['a file of 300 lines', 'packages/domain/src/people/a.ts', lines(300)],
    ['a function of 60 lines', 'packages/domain/src/people/a.ts', longFunction(60)],
    ['a component of 120 lines', 'apps/web/src/ui/Card.tsx', component(120)],
    [
      'a wrapped component',
      'apps/web/src/ui/Card.tsx',
      component(120)
        .replace('= () =>', '= memo(() =>')
        .replace(/\};\n$/, '});\n'),
    ],
    ['a describe block', 'tests/domain/a.test.ts', `describe.each(rows)('a', () => {\n${lines(200)}});\n`],
    ['a seed', 'prisma/seed/houses.ts', lines(900)],
    ['published data', 'tests/published/data/table.ts', longFunction(400)],
  ];
  it.each(QUIET)('stays quiet about %s', (_, path, text) => expect(run(checkSizes, { [path]: text })).toEqual([]));
});

describe('circles', () => {
  const A = 'packages/domain/src/people/a.ts';
  const B = 'packages/domain/src/people/b.ts';
  const C = 'packages/domain/src/people/c.ts';

  it('finds three files that import each other, with the way', () => {
    const found = run(checkCircles, { [A]: "import './b.ts';", [B]: "\nexport * from './c.ts';", [C]: "const a = import('./a.ts');" });
    expect(found).toEqual([expect.stringContaining(`${A}:1 -> ${B}:2 -> ${C}:1 -> ${A}`)]);
  });
  it('finds a circle of types', () =>
    expect(run(checkCircles, { [A]: "import type { B } from './b.ts';", [B]: "import type { A } from './a.ts';" })).toHaveLength(1));
  it('finds a file that imports itself', () => expect(run(checkCircles, { [A]: "import './a.ts';" })).toHaveLength(1));
  it('finds a circle across packages', () =>
    expect(
      run(checkCircles, { [A]: "import '@backsight/store/x';", 'packages/store/src/x.ts': `import '@backsight/domain/people/a';` }),
    ).toHaveLength(1));
  it('finds a circle beyond an entry', () =>
    expect(run(checkCircles, { [A]: "import './b.ts';", [B]: "import './c.ts';", [C]: "import './b.ts';" })).toEqual([
      expect.stringContaining(`${B}:1 -> ${C}:1 -> ${B}`),
    ]));
  it('names a circle once, however many imports close it', () =>
    expect(run(checkCircles, { [A]: "import './b.ts';", [B]: "import './a.ts';\nimport type { A } from './a.ts';" })).toHaveLength(1));
  it('stays quiet about two ways to one file', () =>
    expect(run(checkCircles, { [A]: "import './b.ts'; import './c.ts';", [B]: "import './c.ts';", [C]: '' })).toEqual([]));
});

describe('dead files', () => {
  it('finds a file that nothing reaches, also one that only a dead file uses', () => {
    const found = run(checkDeadFiles, {
      'apps/api/src/main.ts': "import './app.ts';",
      'apps/api/src/app.ts': '',
      'apps/api/src/old.ts': "import './older.ts';",
      'apps/api/src/older.ts': '',
    });
    expect(found).toEqual([expect.stringContaining('apps/api/src/old.ts:1 '), expect.stringContaining('apps/api/src/older.ts:1 ')]);
  });
  it('stays quiet about what the program, a test, a script or a tool reaches', () => {
    const found = run(checkDeadFiles, {
      'apps/web/src/main.tsx': "const page = import('./page.tsx');",
      'apps/web/src/page.tsx': '',
      'apps/web/vite.config.ts': "const worker = 'src/offline.ts';",
      'apps/web/src/offline.ts': '',
      'apps/web/src/vite.d.ts': '',
      'apps/api/scripts/start.mjs': "run(new URL('../src/main.ts', import.meta.url));",
      'apps/api/src/main.ts': "new Worker(new URL('./solver.ts', import.meta.url));",
      'apps/api/src/solver.ts': "import type { A } from '@backsight/domain/people/a';",
      'packages/domain/src/people/a.ts': '',
      'tests/domain/a.test.ts': "import '@backsight/statistics/rates';",
      'packages/statistics/src/rates.ts': '',
    });
    expect(found).toEqual([]);
  });
});

describe('use cases', () => {
  const at = (name: string) => `packages/usecases/src/people/${name}.ts`;
  const cast = (text: string) => ({
    [at('add')]: `import type { Work } from '../run.ts';\n${text}`,
    [at('edit')]: "import type { Work } from '../run.ts';",
    [at('password')]: "import { createHash } from 'node:crypto';",
    [at('steps/lock')]: "import type { Work } from '../../run.ts';",
    'packages/usecases/src/run.ts': '',
  });
  it.each(["import { edit } from './edit.ts';", "const { edit } = await import('./edit.ts');", "export { edit } from './edit.ts';"])(
    'finds %s',
    (text) => expect(run(checkUseCases, cast(text))).toEqual([expect.stringContaining(`${at('add')}:2 imports the use case ./edit.ts`)]),
  );
  it('finds a step that calls a use case', () =>
    expect(run(checkUseCases, { ...cast(''), [at('steps/check')]: "import { edit } from '../edit.ts';" })).toEqual([
      expect.stringContaining(`${at('steps/check')}:1 `),
    ]));
  it.each(["import type { Edit } from './edit.ts';", "import { lock } from './steps/lock.ts';", "import { hash } from './password.ts';"])(
    'stays quiet about %s',
    (text) => expect(run(checkUseCases, cast(text))).toEqual([]),
  );
});

describe('purity', () => {
  const PATH = 'packages/scheduling/src/slots.ts';
  it.each([
    'Date.now()',
    'new Date()',
    'new Date',
    'Date()',
    'Date(0)',
    'DateTime.now()',
    'DateTime.local()',
    'performance.now()',
    'Math.random()',
    'crypto.randomUUID()',
    'process.env.TZ',
    'console.log(1)',
  ])('finds %s', (code) =>
    expect(run(checkPurity, { [PATH]: `// Slots.\nconst a = ${code};\n` })).toEqual([expect.stringContaining(`${PATH}:2 uses `)]),
  );
  it.each(['new Date(instant)', 'DateTime.fromISO(text)', 'DateTime.local(2026, 5, 4)', 'Math.max(1, 2)', "'Date.now()'"])(
    'stays quiet about %s',
    (code) => expect(run(checkPurity, { [PATH]: `const a = ${code};` })).toEqual([]),
  );
  it('stays quiet about the runner', () =>
    expect(run(checkPurity, { 'packages/usecases/src/run.ts': 'const now = new Date();' })).toEqual([]));
});

describe('leftovers', () => {
  const PATH = 'tests/domain/a.test.tsx';
  it.each([
    'it.only("a", f);',
    'describe.skip("a", f);',
    'it.skip.each(rows)("a", f);',
    'it.each(rows).only("a", f);',
    'test.todo("a");',
    '// TODO later',
    '/* FIXME */',
    'const a = b as any;',
    '// @ts-ignore',
    '// @ts-nocheck',
    'const a = <p>TODO</p>;',
  ])('finds %s', (code) => expect(run(checkLeftovers, { [PATH]: `\n${code}` })).toEqual([expect.stringContaining(`${PATH}:2 `)]));
  it.each([
    "const a = '// TODO';",
    'const a = b as unknown;',
    'rows.skip(1);',
    'const o = { only: 1, skip: 2 };',
    '// anyone may skip a step',
  ])('stays quiet about %s', (code) => expect(run(checkLeftovers, { [PATH]: code })).toEqual([]));
});

describe('what cannot be proven', () => {
  it('finds a file that does not parse', () =>
    expect(run(checkFloors, { 'packages/domain/src/people/a.ts': '\nconst = ;' })).toEqual([
      expect.stringContaining('a.ts:2 cannot be parsed'),
    ]));
  it('finds a file that has no place in the table', () =>
    expect(run(checkFloors, { 'packages/extras/src/a.ts': '' })).toEqual([expect.stringContaining('lies on no floor')]));
});

describe('help', () => {
  const routes = "createRoute({ path: '/kit', component: lazyRouteComponent(() => import('./KitPage.tsx'), 'KitPage') })";
  const found = (page: string, help: string): string[] =>
    run(checkHelp, {
      'apps/web/src/features/kit/routes.ts': routes,
      'apps/web/src/features/kit/KitPage.tsx': page,
      'apps/web/src/ui/help.ts': `export const HELP = {\n${help}};`,
    });
  const line = "  '/kit': 'What pairs carry.',\n";
  it('finds a screen without a line, and a line without a screen', () => {
    expect(found('<Page title="Kit" about={data.name} />', '').join()).toContain('KitPage.tsx (/kit) has no line of help');
    expect(found('<Page title="Kit" />', `${line}  '/kits': 'x',\n`)).toEqual(['ui/help.ts has a line for /kits, which is no screen.']);
  });
  it('lets through a plain sentence under the title, or a line of its address', () => {
    expect(found('<Page title="Kit" about="What pairs carry." />', '')).toEqual([]);
    expect(found('<Page title="Kit" />', line)).toEqual([]);
  });
});
