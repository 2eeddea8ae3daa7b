// Walks a syntax tree and answers small questions about its nodes.
import { visitorKeys } from 'oxc-parser';

export type Node = { type: string; start: number; end: number; [key: string]: unknown };
/** Called before a node's children; `above` are its ancestors, nearest last. Answering false skips the children. */
export type Visit = (node: Node, above: readonly Node[]) => void | boolean;

const childrenOf = (node: Node): Node[] =>
  (visitorKeys[node.type] ?? [])
    .flatMap((key) => node[key] as Node | Node[] | null)
    .filter((child) => child !== null && child !== undefined);

/** Visits the node and everything below it in the order of the text. */
export const walk = (node: Node, visit: Visit, above: Node[] = []): void => {
  if (visit(node, above) === false) return;
  above.push(node);
  for (const child of childrenOf(node)) walk(child, visit, above);
  above.pop();
};

const FUNCTIONS = new Set(['FunctionDeclaration', 'FunctionExpression', 'ArrowFunctionExpression']);
export const isFunction = (node: Node): boolean => FUNCTIONS.has(node.type);

/** Name of an identifier or of a plain string key. */
export const nameOf = (node: unknown): string | undefined => {
  const { type, name, value } = (node ?? {}) as { type?: string; name?: string; value?: unknown };
  if (type === 'Identifier' || type === 'PrivateIdentifier') return name;
  return type === 'Literal' ? String(value) : undefined;
};

/** 'Date.now' for the member expression Date.now; undefined for anything deeper or computed. */
export const memberName = (node: Node): string | undefined => {
  if (node.type !== 'MemberExpression' || node['computed'] === true) return undefined;
  const [object, property] = [nameOf(node['object']), nameOf(node['property'])];
  return object && property ? `${object}.${property}` : undefined;
};

/** First name of a chain: `describe` for describe.skip.each(rows). */
export const rootName = (node: unknown): string | undefined => {
  const at = (node ?? {}) as Node;
  if (at.type === 'MemberExpression') return rootName(at['object']);
  if (at.type === 'CallExpression') return rootName(at['callee']);
  if (at.type === 'TaggedTemplateExpression') return rootName(at['tag']);
  return nameOf(at);
};
