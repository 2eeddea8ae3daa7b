// Reads the source files of the repository and what each one imports; every check works on these plain values.
import fs from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import { parseSync } from 'oxc-parser';
import { type Node, walk } from './tree.ts';

export type SourceFile = { path: string; text: string };

/** `type` vanishes before the program runs; `file` is a file named in a string (a worker, a script, an entry of a tool). */
export type ImportKind = 'value' | 'type' | 'dynamic' | 'file';
export type Import = { line: number; specifier: string; target: string; kind: ImportKind };
export type Comment = { line: number; text: string };
export type ParsedFile = SourceFile & {
  program: Node;
  comments: Comment[];
  imports: Import[];
  errors: string[];
  lineAt: (offset: number) => number;
};

const ROOTS = ['apps', 'packages', 'prisma', 'tests'];
const SKIPPED_FOLDERS = new Set(['node_modules', 'dist', 'generated', 'coverage', '.cache', '.data']);
const SOURCE = /\.(ts|tsx|mts|cts|js|jsx|mjs|cjs)$/;
const ENDINGS = ['', '.ts', '.tsx', '.mts', '.js', '.mjs', '/index.ts', '/index.tsx'];

const filesUnder = (folder: string): string[] =>
  fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    if (entry.isDirectory()) return SKIPPED_FOLDERS.has(entry.name) ? [] : filesUnder(full);
    return entry.isFile() && SOURCE.test(entry.name) ? [full] : [];
  });

/** Every source file under the root folders, with its path from the root, in a fixed order. */
export const sourceFiles = (root: string): SourceFile[] =>
  ROOTS.map((name) => path.join(root, name))
    .filter((folder) => fs.existsSync(folder))
    .flatMap(filesUnder)
    .map((full) => ({ path: path.relative(root, full).split(path.sep).join('/'), text: fs.readFileSync(full, 'utf8') }))
    .sort((a, b) => (a.path < b.path ? -1 : 1));

/** The files of this repository. */
export const repository = (): SourceFile[] => sourceFiles(path.resolve(import.meta.dirname, '../..'));

/** The path in the repository that a specifier means, 'node:x' for a module of Node, else the specifier itself. */
const targetOf = (specifier: string, from: string, known: ReadonlySet<string>): string => {
  const clean = specifier.replace(/\?.*$/, '');
  if (clean.startsWith('.')) {
    const joined = path.posix.join(path.posix.dirname(from), clean);
    const candidates = [...ENDINGS.map((ending) => joined + ending), joined.replace(/\.js(x?)$/, '.ts$1')];
    return candidates.find((candidate) => known.has(candidate)) ?? joined;
  }
  const ours = /^@backsight\/([^/]+)\/(.+)$/.exec(clean);
  if (ours) return `packages/${ours[1]}/src/${ours[2]}.ts`;
  return builtinModules.includes(clean) ? `node:${clean}` : clean;
};

const literal = (node: unknown): string | undefined => {
  const { type, value } = (node ?? {}) as { type?: string; value?: unknown };
  return type === 'Literal' && typeof value === 'string' ? value : undefined;
};

/** What one node of the tree imports. `import { type X }` still loads the file when the program runs, so it counts as a value. */
const importOf = (node: Node): { specifier: string; kind: ImportKind } | undefined => {
  const found = (source: unknown, kind: ImportKind) => {
    const specifier = literal(source);
    return specifier === undefined ? undefined : { specifier, kind };
  };
  switch (node.type) {
    case 'ImportDeclaration':
      return found(node['source'], node['importKind'] === 'type' ? 'type' : 'value');
    case 'ExportNamedDeclaration':
    case 'ExportAllDeclaration':
      return found(node['source'], node['exportKind'] === 'type' ? 'type' : 'value');
    case 'ImportExpression':
      return found(node['source'], 'dynamic');
    case 'TSImportType':
      return found(node['source'] ?? node['argument'], 'type');
    case 'CallExpression':
      return (node['callee'] as Node | undefined)?.['name'] === 'require' ? found((node['arguments'] as Node[])[0], 'value') : undefined;
    case 'Literal':
      return SOURCE.test(String(node['value'])) ? found(node, 'file') : undefined;
    default:
      return undefined;
  }
};

const lineCounter = (text: string): ((offset: number) => number) => {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return (offset) => {
    let [low, high] = [0, starts.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle;
    }
    return low + 1;
  };
};

/** A file named in a string counts when that file exists beside the file that names it. */
const resolved = (found: { specifier: string; kind: ImportKind }, line: number, from: string, known: ReadonlySet<string>): Import[] => {
  if (found.kind !== 'file') return [{ line, ...found, target: targetOf(found.specifier, from, known) }];
  const target = path.posix.join(path.posix.dirname(from), found.specifier);
  return known.has(target) ? [{ line, ...found, target }] : [];
};

/** The text of a template or of a comment is never taken for an import: only the syntax tree is asked. */
const parseOne = (file: SourceFile, known: ReadonlySet<string>): ParsedFile => {
  const parsed = parseSync(file.path, file.text);
  const program = parsed.program as unknown as Node;
  const lineAt = lineCounter(file.text);
  const imports: Import[] = [];
  const named = new Set<unknown>();
  walk(program, (node) => {
    const found = named.has(node) ? undefined : importOf(node);
    if (!found) return;
    named.add(node['source']);
    imports.push(...resolved(found, lineAt(node.start), file.path, known));
  });
  const comments = parsed.comments.map((comment) => ({ line: lineAt(comment.start), text: comment.value }));
  const errors = parsed.errors.map((error) => `${file.path}:${lineAt(error.labels[0]?.start ?? 0)} cannot be parsed: ${error.message}`);
  return { ...file, program, comments, imports, errors, lineAt };
};

/** Parses files that may import each other; paths are from the root, with forward slashes. */
export const parseAll = (files: readonly SourceFile[]): ParsedFile[] => {
  const known = new Set(files.map((file) => file.path));
  return files.map((file) => parseOne(file, known));
};
