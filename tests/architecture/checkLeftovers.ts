// Leftovers: tests that were switched off, notes to finish later, and holes in the types.
import type { ParsedFile } from './read.ts';
import { type Node, rootName, walk } from './tree.ts';

const TESTS = new Set(['it', 'test', 'describe', 'suite', 'bench']);
const SWITCHES = new Set(['only', 'skip', 'todo']);
const IN_COMMENTS: readonly [RegExp, string][] = [
  [/\bTODO\b/, 'no TODO'],
  [/\bFIXME\b/, 'no FIXME'],
  [/@ts-ignore|@ts-nocheck/, 'no silenced type checker (@ts-ignore, @ts-nocheck)'],
];

const ruleBroken = (node: Node): string | undefined => {
  if (node.type === 'TSAsExpression' || node.type === 'TSTypeAssertion') {
    return (node['typeAnnotation'] as Node).type === 'TSAnyKeyword' ? 'no `as any`' : undefined;
  }
  if (node.type === 'JSXText') return IN_COMMENTS.find(([pattern]) => pattern.test(String(node['value'])))?.[1];
  if (node.type !== 'MemberExpression' || node['computed'] === true) return undefined;
  const property = (node['property'] as { name?: string }).name ?? '';
  return SWITCHES.has(property) && TESTS.has(rootName(node['object']) ?? '') ? `no test with .${property}` : undefined;
};

const inFile = (file: ParsedFile): string[] => {
  const found: [number, string][] = file.comments.flatMap(({ line, text }) =>
    IN_COMMENTS.filter(([pattern]) => pattern.test(text)).map(([, rule]): [number, string] => [line, rule]),
  );
  walk(file.program, (node) => {
    const rule = ruleBroken(node);
    if (rule) found.push([file.lineAt(node.start), rule]);
  });
  return found.map(([line, rule]) => `${file.path}:${line} breaks a rule of the house. Rule: ${rule}.`);
};

/** One message for each leftover. */
export const checkLeftovers = (files: readonly ParsedFile[]): string[] => files.flatMap(inFile);
