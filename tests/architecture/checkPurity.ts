// Purity: the domain and the engines read no clock, no chance, no environment and write no log; those come as arguments.
import type { ParsedFile } from './read.ts';
import { memberName, nameOf, type Node, walk } from './tree.ts';

const PURE = /^packages\/(domain|scheduling|statistics)\/src\//;

const BANNED: Record<string, string> = {
  'Date.now': 'the clock',
  'performance.now': 'the clock',
  'DateTime.now': 'the clock',
  'Settings.now': 'the clock',
  'Math.random': 'chance',
  'crypto.randomUUID': 'chance',
  'crypto.getRandomValues': 'chance',
  'process.env': 'the environment',
  'import.meta': 'the environment',
  'console.log': 'the log',
  'console.info': 'the log',
  'console.warn': 'the log',
  'console.error': 'the log',
  'console.debug': 'the log',
};

/** Without arguments these mean "now"; with one they only convert. */
const NOW_WHEN_EMPTY = new Set(['Date', 'DateTime.local', 'DateTime.utc']);

const touches = (node: Node): [string, string] | undefined => {
  const name = node.type === 'MetaProperty' ? 'import.meta' : memberName(node);
  const what = name === undefined ? undefined : BANNED[name];
  if (name && what) return [name, what];
  if (node.type !== 'NewExpression' && node.type !== 'CallExpression') return undefined;
  const callee = node['callee'] as Node;
  const called = nameOf(callee) ?? memberName(callee);
  const empty = (node['arguments'] as unknown[]).length === 0 || (called === 'Date' && node.type === 'CallExpression');
  return called && empty && NOW_WHEN_EMPTY.has(called)
    ? [`${node.type === 'NewExpression' ? 'new ' : ''}${called}()`, 'the clock']
    : undefined;
};

/** One message for each use of clock, chance, environment or log on a pure floor. */
export const checkPurity = (files: readonly ParsedFile[]): string[] =>
  files
    .filter((file) => PURE.test(file.path))
    .flatMap((file) => {
      const found: string[] = [];
      walk(file.program, (node) => {
        const touched = touches(node);
        if (touched)
          found.push(
            `${file.path}:${file.lineAt(node.start)} uses ${touched[0]}. Rule: domain, scheduling and statistics never touch ${touched[1]}; it arrives as an argument.`,
          );
      });
      return found;
    });
