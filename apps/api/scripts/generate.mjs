// Generates the Prisma client into packages/store/src/generated. The engine variable keeps Prisma from downloading one.
import { spawnSync } from 'node:child_process';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '../../..');
const prisma = path.join(root, 'node_modules/prisma/build/index.js');
const done = spawnSync(process.execPath, [prisma, 'generate', '--config', 'prisma/prisma.config.ts'], {
  cwd: root,
  env: { ...process.env, PRISMA_SCHEMA_ENGINE_BINARY: process.execPath, PRISMA_HIDE_UPDATE_MESSAGE: '1' },
  encoding: 'utf8',
});
if (done.status !== 0) process.stderr.write(`${done.stdout}${done.stderr}`);
process.exit(done.status ?? 1);
