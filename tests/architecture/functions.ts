// Finds the functions of a file with their names, their lengths and whether they are React components.
import type { ParsedFile } from './read.ts';
import { isFunction, nameOf, type Node, rootName, walk } from './tree.ts';

export type FunctionSize = { name: string; line: number; lines: number; component: boolean };

const HOLDERS: Record<string, string> = {
  VariableDeclarator: 'id',
  Property: 'key',
  PropertyDefinition: 'key',
  MethodDefinition: 'key',
  AssignmentExpression: 'left',
};

/** Its own name, or that of the variable or property it is given to, also through a wrapper: memo(() => ...). */
const functionName = (node: Node, above: readonly Node[]): string | undefined => {
  const own = nameOf(node['id']);
  if (own) return own;
  const holder = above.findLast(
    (parent) => parent.type !== 'CallExpression' && !parent.type.startsWith('TS') && parent.type !== 'ParenthesizedExpression',
  );
  const key = holder && HOLDERS[holder.type];
  return holder && key ? nameOf(holder[key]) : undefined;
};

const holdsJsx = (value: unknown): boolean => {
  let found = false;
  if (value)
    walk(value as Node, (node) => {
      found ||= node.type === 'JSXElement' || node.type === 'JSXFragment';
      return !found && !isFunction(node);
    });
  return found;
};

/** True when the function itself (not one inside it) gives back JSX. */
const returnsJsx = (node: Node): boolean => {
  const body = node['body'] as Node | null;
  if (!body) return false;
  if (body.type !== 'BlockStatement') return holdsJsx(body);
  let found = false;
  walk(body, (inner) => {
    if (inner.type === 'ReturnStatement') found ||= holdsJsx(inner['argument']);
    return !found && !isFunction(inner);
  });
  return found;
};

/** A describe block groups tests; it is a chapter of the file, not a function. */
const isChapter = (above: readonly Node[]): boolean => {
  const parent = above.at(-1);
  return parent?.type === 'CallExpression' && ['describe', 'suite'].includes(rootName(parent) ?? '');
};

/** Every function of a file; `lines` counts from its first line to its last, both included. */
export const functionsOf = (file: ParsedFile): FunctionSize[] => {
  const found: FunctionSize[] = [];
  walk(file.program, (node, above) => {
    if (!isFunction(node) || isChapter(above)) return;
    const name = functionName(node, above);
    const line = file.lineAt(node.start);
    const component = file.path.endsWith('.tsx') && /^[A-Z]/.test(name ?? '') && returnsJsx(node);
    found.push({ name: name ?? 'a function without a name', line, lines: file.lineAt(node.end) - line + 1, component });
  });
  return found;
};
