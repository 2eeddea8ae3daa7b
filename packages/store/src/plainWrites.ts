// Sends what a transaction writes to one table straight to its connection, as hand-written SQL goes: Prisma compiles, interprets and reads back
// every write, which costs several times what the write does. Whatever is more than one plain statement still goes through Prisma.
import type pg from 'pg';
import { Prisma, type PrismaClient } from './generated/client.ts';
import { ask, settled, tell, type OwnConnection } from './ownConnection.ts';
import { plainSql, type Table } from './plainSql.ts';
import { statementName } from './statementName.ts';

type Client = Prisma.TransactionClient;
type Silent = 'create' | 'createMany' | 'update' | 'delete' | 'upsert';
type Done<D, W extends Silent> = W extends keyof D ? (args: Prisma.Args<D, W>) => Promise<void> : never;

/** Prisma's client, whose writes answer nothing, but for those that tell how many rows they found: so nobody waits for the others. */
export type Writer = {
  [M in keyof Client]: M extends `$${string}` ? Client[M] : Omit<Client[M], Silent> & { [W in Silent]: Done<Client[M], W> };
};

type Known = { models: Record<string, { dbName: string | null; fields: { name: string; dbName?: string; kind: string; type: string }[] }> };

/** The tables that a client of Prisma knows, by their names in code. @throws Error when this version of Prisma does not say them. */
export function tablesOf(prisma: PrismaClient): ReadonlyMap<string, Table> {
  const known = (prisma as unknown as { _runtimeDataModel?: Known })._runtimeDataModel;
  if (!known) throw new Error('Prisma does not say what its tables are.');
  return new Map(
    Object.entries(known.models).map(([model, { dbName, fields }]) => {
      const columns = fields.filter(({ kind }) => kind === 'scalar');
      const named = columns.map(({ name, dbName: column, type }) => [name, { column: column ?? name, type }] as const);
      return [model[0]!.toLowerCase() + model.slice(1), { name: dbName ?? model, fields: new Map(named) }];
    }),
  );
}

type Delegate = Record<string, (args: object) => Promise<unknown>>;
type Any = (...given: unknown[]) => Promise<unknown>;

/** The client of one transaction, whose plain writes go to its own connection. */
export function plainWrites(own: OwnConnection, db: Client, tables: ReadonlyMap<string, Table>): Writer {
  return new Proxy(db, {
    get(client, name: string) {
      if (name === '$executeRawUnsafe') return (text: string, ...values: unknown[]) => executed(own, client, text, values);
      const value = client[name as keyof Client] as unknown;
      const table = tables.get(name);
      if (table) return written(own, value as Delegate, table);
      return typeof value === 'function' ? behind(own, (value as Any).bind(client)) : value;
    },
  }) as unknown as Writer;
}

/** What Prisma sends itself, behind what was asked for before it. */
const behind =
  (own: OwnConnection, act: Any): Any =>
  async (...given) => {
    await settled(own);
    return act(...given);
  };

function written(own: OwnConnection, delegate: Delegate, table: Table): Delegate {
  return new Proxy(delegate, {
    get(target, write: string) {
      const through = target[write];
      if (typeof through !== 'function') return through;
      const byPrisma = behind(own, through.bind(target) as Any);
      return async (args: object = {}) => {
        if (write === 'createMany' && [(args as { data: unknown }).data].flat().length === 0) return;
        const plain = plainSql(table, write, args);
        if (!plain) return byPrisma(args);
        const query = plain.fixed ? named(plain) : plain;
        if (write === 'updateMany' || write === 'deleteMany') {
          const answer = await ask(own, query);
          return answer ? { count: answer.rowCount ?? 0 } : byPrisma(args);
        }
        const rowless = write === 'update' || write === 'delete' ? () => noRow(table, write) : undefined;
        return (await tell(own, query, rowless)) ? undefined : byPrisma(args);
      };
    },
  });
}

/** As Prisma says it. */
const noRow = (table: Table, write: string): Error =>
  new Prisma.PrismaClientKnownRequestError(`There is no row of ${table.name} for this ${write}.`, {
    code: 'P2025',
    clientVersion: Prisma.prismaVersion.client,
  });

async function executed(own: OwnConnection, client: Client, text: string, values: unknown[]): Promise<number> {
  const answer = await ask(own, named({ text, values }));
  return answer ? (answer.rowCount ?? 0) : client.$executeRawUnsafe(text, ...values);
}

const named = <Q extends pg.QueryConfig>(query: Q): Q => ({ ...query, name: statementName(query.text) });
