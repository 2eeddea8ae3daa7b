// Prisma's schema engine as WebAssembly over our own connection: compares a database with schema.prisma, without a native engine and without a download.
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { PrismaPg } from '@prisma/adapter-pg';
import {
  bindMigrationAwareSqlAdapterFactory,
  ColumnTypeEnum,
  type SqlMigrationAwareDriverAdapterFactory,
  type SqlQuery,
  type SqlResultSet,
} from '@prisma/driver-adapter-utils';
import pg from 'pg';

export const root = path.resolve(import.meta.dirname, '../../..');
const schemaFile = path.join(root, 'prisma/schema.prisma');
const filters = { externalTables: [], externalEnums: [] };

type Diff = { exitCode: number; stdout: string };
type Engine = { diff: (input: unknown) => Promise<Diff>; free?: () => void };
type EngineModule = {
  __wbg_set_wasm: (exports: WebAssembly.Exports) => void;
  SchemaEngine: { new: (options: unknown, log: () => void, adapter: unknown) => Promise<Engine> };
};

let loaded: Promise<EngineModule> | undefined;

/** The package is made for bundlers, which load its .wasm file themselves; here that is done by hand. */
async function load(): Promise<EngineModule> {
  (globalThis as Record<string, unknown>).PRISMA_WASM_PANIC_REGISTRY ??= { set_message: (message: string) => console.error(message) };
  const folder = path.dirname(createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm'));
  const module = (await import(pathToFileURL(path.join(folder, 'schema_engine_bg.js')).href)) as EngineModule;
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(path.join(folder, 'schema_engine_bg.wasm')), {
    './schema_engine_bg.js': module as unknown as WebAssembly.ModuleImports,
  });
  module.__wbg_set_wasm(instance.exports);
  (instance.exports.__wbindgen_start as (() => void) | undefined)?.();
  return module;
}

const CATALOGUE_CHAR = 18;
const TEXT = 25;

/** A pool that reads the catalogue's one-byte type as text and remembers which columns those were; the adapter does not know that type. */
class CataloguePool extends pg.Pool {
  readonly charColumns = new WeakMap<object, number[]>();
  override query(...args: unknown[]): never {
    const answer = (super.query as (...all: unknown[]) => unknown).apply(this, args);
    if (!(answer instanceof Promise)) return answer as never;
    return answer.then((result: pg.QueryArrayResult) => {
      const fields = (result?.fields ?? []).filter((field) => field.dataTypeID === CATALOGUE_CHAR);
      const columns = fields.map((field) => result.fields.indexOf(field));
      for (const field of fields) field.dataTypeID = TEXT;
      if (columns.length > 0) this.charColumns.set(result.rows, columns);
      return result;
    }) as never;
  }
}

const asCharacter = (pool: CataloguePool, result: SqlResultSet): SqlResultSet => {
  for (const column of pool.charColumns.get(result.rows) ?? []) {
    result.columnTypes[column] = ColumnTypeEnum.Character;
    for (const line of result.rows) if (line[column] === '') line[column] = '\0';
  }
  return result;
};

/** The adapter, cured of two faults: it cannot read the type above, and it cuts scripts at every semicolon. */
function adapterOver(pool: CataloguePool): SqlMigrationAwareDriverAdapterFactory {
  const factory = new PrismaPg(pool); // never by an address: its shadow database would silently be the main one
  const connect = factory.connect.bind(factory);
  factory.connect = async () => {
    const adapter = await connect();
    const queryRaw = adapter.queryRaw.bind(adapter);
    adapter.queryRaw = async (query: SqlQuery) => asCharacter(pool, await queryRaw(query));
    adapter.executeScript = async (script: string) => void (await (pool as pg.Pool).query(script));
    return adapter;
  };
  return factory;
}

/** What would have to change in the database at `url` so that it is as schema.prisma says. `exitCode` 0: nothing; else `stdout` is the SQL. */
export async function diffDatabase(url: string): Promise<Diff> {
  const { SchemaEngine } = await (loaded ??= load());
  const at = new URL(url);
  const pool = new CataloguePool({
    host: at.hostname,
    port: Number(at.port),
    user: decodeURIComponent(at.username),
    password: decodeURIComponent(at.password),
    database: at.pathname.slice(1),
    max: 1,
    options: '-c timezone=UTC',
  });
  const files = [{ path: 'schema.prisma', content: fs.readFileSync(schemaFile, 'utf8') }];
  const engine = await SchemaEngine.new(
    { datamodels: files.map((file) => [file.path, file.content]) },
    () => {},
    bindMigrationAwareSqlAdapterFactory(adapterOver(pool)),
  );
  try {
    return await engine.diff({
      from: { tag: 'schemaDatasource', files, configDir: path.dirname(schemaFile) },
      to: { tag: 'schemaDatamodel', files },
      script: true,
      exitCode: true,
      shadowDatabaseUrl: null,
      filters,
    });
  } finally {
    engine.free?.();
    await pool.end();
  }
}
