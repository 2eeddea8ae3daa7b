// A step of the build: of the contract a browser needs addresses, words and numbers. The schemas stay with the service, which checks every request.
import type { Plugin } from 'vite';

/** All that a call reads of a route (src/api/call.ts). */
const KEPT: readonly string[] = ['method', 'path', 'creates', 'edits'];
const WITH_SCHEMAS = /packages\/(contract\/src\/.*|domain\/src\/.*\/stored)\.ts$/;
const RULES = /packages\/(contract|domain)\/src\//;

type Node = { type: string; start: number; end: number; [part: string]: unknown };
type Edit = { start: number; end: number; text: string };

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null && 'type' in value && 'start' in value;
const partsOf = (node: Node): Node[] => Object.values(node).flat().filter(isNode);
const isFunction = ({ type }: Node): boolean => type === 'ArrowFunctionExpression' || type === 'FunctionExpression';
const nameOf = (node: unknown): string => (isNode(node) ? String(node.name ?? node.value ?? '') : '');

const calls = (name: string, node: Node): boolean => node.type === 'CallExpression' && nameOf(node.callee) === name;
const isRoute = (node: Node): boolean => calls('route', node);

/** What `{...}` keeps of a route, or of the part that several routes have in common. */
function leanObject(code: string, node: Node): Edit {
  const kept = (node.properties as Node[]).filter(({ type, key }) => type === 'SpreadElement' || KEPT.includes(nameOf(key)));
  return { start: node.start, end: node.end, text: `{ ${kept.map(({ start, end }) => code.slice(start, end)).join(', ')} }` };
}

/** `route({...})` without its schemas. @throws Error when it is not written as one object: then nobody knows what to leave out. */
function leanRoute(code: string, node: Node): Edit {
  const [given] = node.arguments as Node[];
  if (given?.type !== 'ObjectExpression') throw new Error('A route must be written as one object.');
  return { ...leanObject(code, given), start: node.start, end: node.end };
}

/** `withTables(page, {...})`: a browser asks for a table by its address alone (src/api/tables.ts); the service makes it. */
function leanTables(code: string, node: Node): Edit {
  const page = (node.arguments as Node[])[0]!;
  return { start: node.start, end: node.end, text: `{ table: { path: ${code.slice(page.start, page.end)}.path + '/table.csv' } }` };
}

/** Names of what routes have in common: `route({ ...act, path })`. */
const commonIn = (node: Node): string[] =>
  isRoute(node)
    ? (node.arguments as Node[])
        .flatMap(partsOf)
        .filter(({ type }) => type === 'SpreadElement')
        .map(({ argument }) => nameOf(argument))
    : partsOf(node).flatMap(commonIn);

/** Leaner routes inside a value, and whether anything is still called to make it. */
function read(code: string, node: Node, edits: Edit[]): boolean {
  if (isFunction(node)) return false;
  if (isRoute(node)) {
    edits.push(leanRoute(code, node));
    return false;
  }
  if (calls('withTables', node)) {
    edits.push(leanTables(code, node));
    return false;
  }
  const inside = partsOf(node).map((part) => read(code, part, edits));
  return ['CallExpression', 'NewExpression'].includes(node.type) || inside.includes(true);
}

const declared = (statement: Node): Node[] => {
  const declaration = statement.type === 'ExportNamedDeclaration' ? statement.declaration : statement;
  return isNode(declaration) && declaration.type === 'VariableDeclaration' ? (declaration.declarations as Node[]) : [];
};

/** The source of a file of the contract as a browser gets it: what is made by calls goes where nothing asks for it. */
export function lean(code: string, program: Node): string {
  const edits: Edit[] = [];
  const common = commonIn(program);
  for (const { id, init } of (program.body as Node[]).flatMap(declared)) {
    if (!isNode(init)) continue;
    if (init.type === 'ObjectExpression' && common.includes(nameOf(id))) {
      edits.push(leanObject(code, init));
      continue;
    }
    if (!read(code, init, edits)) continue;
    edits.push({ start: init.start, end: init.start, text: '/* @__PURE__ */ (() => (' }, { start: init.end, end: init.end, text: '))()' });
  }
  let [text, from] = ['', 0];
  for (const edit of edits.toSorted((a, b) => a.start - b.start)) {
    text += code.slice(from, edit.start) + edit.text;
    from = edit.end;
  }
  return text + code.slice(from);
}

export const leanContract = (): Plugin => ({
  name: 'lean-contract',
  apply: 'build',
  enforce: 'post',
  transform(code, id) {
    if (!RULES.test(id)) return null;
    const smaller = WITH_SCHEMAS.test(id) ? lean(code, this.parse(code) as unknown as Node) : code;
    return { code: smaller, map: null, moduleSideEffects: false };
  },
});
