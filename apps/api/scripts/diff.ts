// npm run db:diff: says whether migrations and schema.prisma agree, and prints the SQL that is missing; with `-- a_name` writes it as the next migration.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { startEmbedded } from '@backsight/store/embedded/server';
import { migrate, readMigrations } from '@backsight/store/migrate';
import { diffDatabase, root } from './schemaEngine.ts';

const name = process.argv[2];
if (name !== undefined && !/^[a-z][a-z0-9_]*$/.test(name)) {
  console.error('The name of a migration has small letters, digits and underscores.');
  process.exit(1);
}
const folder = path.join(root, 'prisma/migrations');
const dataDir = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-diff-'));
fs.chmodSync(dataDir, 0o755);
const server = await startEmbedded({ dataDir, from: path.join(root, 'packages/store/package.json'), volatile: true });
let code = 0;
try {
  await migrate(server.url('postgres'), folder);
  const { exitCode, stdout } = await diffDatabase(server.url('postgres'));
  if (exitCode === 0) console.log('Migrations and schema.prisma agree.');
  else if (name === undefined) {
    console.log(stdout);
    code = 2;
  } else {
    const number = String(Number(readMigrations(folder).at(-1)?.name.slice(0, 4) ?? 0) + 1).padStart(4, '0');
    const made = path.join(folder, `${number}_${name}`);
    fs.mkdirSync(made);
    fs.writeFileSync(path.join(made, 'migration.sql'), stdout);
    console.log(`Wrote ${path.relative(root, made)}/migration.sql. Read it, and add the rules that schema.prisma cannot say.`);
  }
} finally {
  await server.stop();
  fs.rmSync(dataDir, { recursive: true, force: true });
}
process.exit(code);
