// Writes over one table, said in Prisma's words, as the one SQL statement that they are. Whatever needs more than that is not understood here.

/** A table as Prisma's schema has it: the names of its fields in code, each with its column and type. */
export type Table = { name: string; fields: ReadonlyMap<string, { column: string; type: string }> };

/** `fixed`: its text hangs on the names that it was asked with alone, so that it is worth a name of its own. */
export type PlainSql = { text: string; values: unknown[]; fixed: boolean };

type Words = Record<string, unknown>;
type Write = { where?: Words; data?: Words | Words[]; create?: Words; update?: Words; skipDuplicates?: boolean };

class NotUnderstood extends Error {}
const no = (): never => {
  throw new NotUnderstood();
};

/** PostgreSQL takes no more parameters with one statement than 65,535. */
const MOST_VALUES = 30_000;

/** The statement of one of the writes below, or null where Prisma has to say it: relations, operators not known here, too many values. */
export function plainSql(table: Table, write: string, args: Write): PlainSql | null {
  const making = WRITES[write];
  if (!making) return null;
  const values: unknown[] = [];
  try {
    const text = making(table, args, (value) => `$${values.push(value)}`);
    const many = Array.isArray(args.data) && args.data.length > 2;
    return values.length > MOST_VALUES ? null : { text, values, fixed: !many };
  } catch (error) {
    if (error instanceof NotUnderstood) return null;
    throw error;
  }
}

type Take = (value: unknown) => string;

const WRITES: Record<string, (table: Table, args: Write, take: Take) => string> = {
  create: (table, { data }, take) => insert(table, [data as Words], take),
  createMany: (table, { data, skipDuplicates }, take) =>
    insert(table, [data as Words | Words[]].flat(), take) + (skipDuplicates ? ' ON CONFLICT DO NOTHING' : ''),
  update: (table, args, take) => update(table, args, take),
  updateMany: (table, args, take) => update(table, args, take),
  delete: (table, { where }, take) => `DELETE FROM "${table.name}"${conditions(table, where, take)}`,
  deleteMany: (table, { where }, take) => `DELETE FROM "${table.name}"${conditions(table, where, take)}`,
  upsert: (table, { where, create, update: to }, take) => {
    const key = given(flat(where ?? no()));
    if (key.length === 0 || key.some(([name, value]) => value !== create?.[name] && !sameTime(value, create?.[name]))) no();
    const row = insert(table, [create!], take);
    const changes = given(to ?? {}).map(([name, value]) => changed(table, name, value, take));
    const target = key.map(([name]) => `"${field(table, name).column}"`).join(', ');
    return `${row} ON CONFLICT (${target}) ${changes.length > 0 ? `DO UPDATE SET ${changes.join(', ')}` : 'DO NOTHING'}`;
  },
};

const given = (words: Words): [string, unknown][] => Object.entries(words).filter(([, value]) => value !== undefined);
const sameTime = (a: unknown, b: unknown): boolean => a instanceof Date && b instanceof Date && a.getTime() === b.getTime();
const field = (table: Table, name: string) => table.fields.get(name) ?? no();

function insert(table: Table, rows: readonly Words[], take: Take): string {
  const names = [...new Set(rows.flatMap((row) => given(row).map(([name]) => name)))];
  if (names.length === 0) no();
  const columns = names.map((name) => `"${field(table, name).column}"`).join(', ');
  const lines = rows.map(
    (row) =>
      `(${names.map((name) => (row[name] === undefined ? 'DEFAULT' : take(stored(field(table, name).type, row[name])))).join(', ')})`,
  );
  return `INSERT INTO "${table.name}" (${columns}) VALUES ${lines.join(', ')}`;
}

function update(table: Table, { where, data }: Write, take: Take): string {
  const changes = given(data as Words).map(([name, value]) => changed(table, name, value, take));
  if (changes.length === 0) no();
  return `UPDATE "${table.name}" SET ${changes.join(', ')}${conditions(table, where, take)}`;
}

function changed(table: Table, name: string, value: unknown, take: Take): string {
  const { column, type } = field(table, name);
  const by = type === 'Json' ? undefined : operand(value, 'increment');
  if (by !== undefined) return `"${column}" = "${table.name}"."${column}" + ${take(stored(type, by))}`;
  return `"${column}" = ${take(stored(type, value))}`;
}

function conditions(table: Table, where: Words | undefined, take: Take): string {
  const all = given(flat(where ?? {})).map(([name, value]) => condition(table, name, value, take));
  return all.length > 0 ? ` WHERE ${all.join(' AND ')}` : '';
}

/** A row named by several fields together stands in Prisma under their names with _ between: {jobId_kind: {jobId, kind}}. */
function flat(where: Words): Words {
  const parts = Object.entries(where).map(([name, value]) => {
    const compound = /^[a-z]\w*_\w+$/.test(name) && typeof value === 'object' && value !== null;
    return compound && Object.keys(value).join('_') === name ? (value as Words) : { [name]: value };
  });
  return Object.assign({}, ...parts) as Words;
}

const COMPARED = { lt: '<', lte: '<=', gt: '>', gte: '>=' } as const;

function condition(table: Table, name: string, value: unknown, take: Take): string {
  const { column, type } = field(table, name);
  if (type === 'Json') no();
  if (value === null) return `"${column}" IS NULL`;
  if (isValue(value)) return `"${column}" = ${take(stored(type, value))}`;
  if (isOnly(value, 'not') && value.not === null) return `"${column}" IS NOT NULL`;
  const among = operand(value, 'in');
  if (Array.isArray(among)) return `"${column}" = ANY (${take(among.map((one) => stored(type, one)))})`;
  for (const [word, sign] of Object.entries(COMPARED)) {
    const bound = operand(value, word);
    if (bound !== undefined && isValue(bound)) return `"${column}" ${sign} ${take(stored(type, bound))}`;
  }
  return no();
}

const isValue = (value: unknown): boolean => typeof value !== 'object' || value instanceof Date;
const isOnly = (value: unknown, word: string): value is Words =>
  typeof value === 'object' && value !== null && Object.keys(value).length === 1 && word in value;
const operand = (value: unknown, word: string): unknown => (isOnly(value, word) ? value[word] : undefined);

/** As the driver sends it: moments and days as ISO text, JSON as its text, whole numbers of any size as digits. */
function stored(type: string, value: unknown): unknown {
  if (value === null) return null;
  if (type === 'Json') return Object.getPrototypeOf(value) === null || isSentinel(value) ? no() : JSON.stringify(value);
  if (value instanceof Date) return value.toISOString();
  if (typeof value === 'bigint') return value.toString();
  if (Array.isArray(value)) return value.every((one) => typeof one === 'string' || typeof one === 'number') ? value : no();
  if (value instanceof Uint8Array) return Buffer.from(value.buffer, value.byteOffset, value.byteLength);
  return typeof value === 'object' ? no() : value;
}

/** Prisma's words for the two nothings of JSON, which are objects of classes of its own. */
const isSentinel = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && ![Object.prototype, Array.prototype].includes(Object.getPrototypeOf(value) as object);
