// Time of day and days are always those of a zone that is named: what the machine or the browser thinks where it is decides nothing.
import type { ParsedFile } from './read.ts';
import { memberName, nameOf, type Node, walk } from './tree.ts';

const OURS = /^(apps|packages|prisma)\//;
/** Where the device's own zone is meant. */
const ALLOWED: Record<string, string> = {
  'apps/web/src/ui/ZoneNote.tsx': 'says that the browser is in another zone',
  'apps/web/src/api/phone/replies.ts': 'what is kept for today goes with the day of the phone',
};

/** Methods of Date that read or write by the zone of the machine (ECMA-262, 21.4.4, "LocalTime" and "UTC(t)"). */
const LOCAL = new Set([
  ...['getFullYear', 'getMonth', 'getDate', 'getDay', 'getHours', 'getMinutes', 'getTimezoneOffset'],
  ...['setFullYear', 'setMonth', 'setDate', 'setHours', 'setMinutes', 'toDateString', 'toTimeString'],
]);
/** Where options have to name the zone, and at which place they stand. */
const WITH_OPTIONS: Record<string, number> = { toLocaleDateString: 1, toLocaleTimeString: 1 };
const LUXON: Record<string, number> = {
  fromISO: 1,
  fromJSDate: 1,
  fromMillis: 1,
  fromSeconds: 1,
  fromObject: 1,
  fromFormat: 2,
  fromSQL: 1,
};
const NAMES_A_ZONE = new Set(['zone', 'setZone', 'timeZone']);
/** What makes an instant of "now" again, or puts it into a zone, at once. */
const ZONED = new Set(['setZone', 'toUTC', 'toMillis', 'valueOf', 'toJSDate']);
const OF_TIMES = new Set(['dateStyle', 'timeStyle', 'year', 'month', 'day', 'hour', 'minute', 'weekday']);

const keysOf = (node: Node | undefined): string[] =>
  node?.type === 'ObjectExpression' ? (node['properties'] as Node[]).map((property) => nameOf(property['key']) ?? '') : [];
const namesZone = (node: Node | undefined): boolean =>
  node !== undefined && (node.type !== 'ObjectExpression' || keysOf(node).some((key) => NAMES_A_ZONE.has(key)));

/** Text with a time of day and no offset behind it, as far as the source shows it. */
function isZoneless(node: Node | undefined): boolean {
  if (node?.type === 'Literal') return /T\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/.test(String(node['value']));
  if (node?.type !== 'TemplateLiteral') return false;
  const last = (node['quasis'] as { value: { raw: string } }[]).at(-1)!.value.raw;
  return /T\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/.test(last);
}

/** What a node reads by the machine's zone; undefined when nothing. */
function localIn(node: Node, above: readonly Node[]): string | undefined {
  if (node.type !== 'CallExpression' && node.type !== 'NewExpression') return undefined;
  const callee = node['callee'] as Node;
  const called = memberName(callee) ?? nameOf(callee) ?? '';
  const method = callee.type === 'MemberExpression' ? (nameOf(callee['property']) ?? '') : '';
  const given = node['arguments'] as Node[];
  if (LOCAL.has(method)) return `.${method}()`;
  if (Object.hasOwn(WITH_OPTIONS, method) && !namesZone(given[WITH_OPTIONS[method]!])) return `.${method}() without a time zone`;
  if (method === 'toLocaleString' && keysOf(given[1]).some((key) => OF_TIMES.has(key)) && !namesZone(given[1]))
    return '.toLocaleString() without a time zone';
  if (called === 'Date' && node.type === 'NewExpression' && given.length > 1) return 'new Date() of parts';
  if ((called === 'Date' || called === 'Date.parse') && isZoneless(given[0])) return `${called}() of text without an offset`;
  if (called === 'Intl.DateTimeFormat' && !namesZone(given[1])) return 'Intl.DateTimeFormat without a time zone';
  if (!called.startsWith('DateTime.')) return undefined;
  if (Object.hasOwn(LUXON, method) && !namesZone(given[LUXON[method]!])) return `${called}() without a zone`;
  if (method === 'local' || (method === 'now' && !ZONED.has(nameOf(above.at(-1)?.['property']) ?? ''))) return `${called}()`;
  return undefined;
}

/** One message for each time that is read by the zone of the machine. */
export const checkLocalTime = (files: readonly ParsedFile[]): string[] =>
  files
    .filter(({ path }) => OURS.test(path) && !(path in ALLOWED))
    .flatMap((file) => {
      const found: string[] = [];
      walk(file.program, (node, above) => {
        const local = localIn(node, above);
        if (local)
          found.push(
            `${file.path}:${file.lineAt(node.start)} reads ${local}. Rule: a time of day or a day is that of a zone which is named.`,
          );
      });
      return found;
    });
