// The reader itself: a check that sees no file or misses a kind of import would pass falsely.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { parseAll, sourceFiles } from './read.ts';

const FROM = 'packages/domain/src/people/rules.ts';
const BESIDE = 'packages/domain/src/people/state.ts';

const FORMS: [string, string, string, string][] = [
  ['a plain import', "import { a } from './state.ts';", 'value', BESIDE],
  ['an import for its effect', "import './state.ts';", 'value', BESIDE],
  ['a type import', "import type { A } from './state.ts';", 'type', BESIDE],
  ['a type among the names still loads the file', "import { type A } from './state.ts';", 'value', BESIDE],
  ['export from', "export { a } from './state.ts';", 'value', BESIDE],
  ['export all', "export * from './state.ts';", 'value', BESIDE],
  ['export of a type', "export type { A } from './state.ts';", 'type', BESIDE],
  ['a dynamic import', "const a = await import('./state.ts');", 'dynamic', BESIDE],
  ['a type by import()', "type A = import('./state.ts').A;", 'type', BESIDE],
  ['require', "const a = require('./state.ts');", 'value', BESIDE],
  ['a file named in a string', "const a = new URL('./state.ts', base);", 'file', BESIDE],
  ['a path without its ending', "import { a } from './state';", 'value', BESIDE],
  ['a question at the end of the path', "import a from './state.ts?url';", 'value', BESIDE],
  ['another package', "import { a } from '@backsight/store/people/rows';", 'value', 'packages/store/src/people/rows.ts'],
  ['a module of Node without its prefix', "import fs from 'fs';", 'value', 'node:fs'],
  ['a library', "import { z } from 'zod/v4';", 'value', 'zod/v4'],
];

describe('imports of a file', () => {
  it.each(FORMS)('%s', (_, text, kind, target) => {
    const [file] = parseAll([
      { path: FROM, text: `// Rules.\n\n${text}\n` },
      { path: BESIDE, text: '' },
    ]);
    expect(file?.imports[0]).toMatchObject({ kind, target, line: 3 });
  });

  it('stays quiet about comments, templates and strings that name no file', () => {
    const text = "// import './state.ts'\nconst a = `import './state.ts'`;\nconst b = 'nothing.ts';\n";
    expect(
      parseAll([
        { path: FROM, text },
        { path: BESIDE, text: '' },
      ])[0]?.imports,
    ).toEqual([]);
  });
});

describe('the repository', () => {
  it('is read without installed, built or generated files, and without what is no source', () => {
    const root = fs.mkdtempSync(path.join(os.tmpdir(), 'architecture-'));
    onTestFinished(() => fs.rmSync(root, { recursive: true }));
    const kept = ['apps/web/src/Page.tsx', 'packages/store/src/a.ts', 'prisma/seed/a.ts', 'tests/domain/a.test.ts'];
    const passed = [
      'apps/web/node_modules/x/a.ts',
      'apps/web/dist/a.js',
      'packages/store/src/generated/a.ts',
      'prisma/schema.prisma',
      'other/a.ts',
    ];
    for (const file of [...kept, ...passed]) {
      fs.mkdirSync(path.join(root, path.dirname(file)), { recursive: true });
      fs.writeFileSync(path.join(root, file), '// A file.\n');
    }
    expect(sourceFiles(root)).toEqual(kept.map((file) => ({ path: file, text: '// A file.\n' })));
  });
});
