// Where the Prisma command finds the schema; the address matters only to `prisma migrate dev`.
import path from 'node:path';
import { defineConfig } from 'prisma/config';

export default defineConfig({
  schema: path.join(import.meta.dirname, 'schema.prisma'),
  migrations: { path: path.join(import.meta.dirname, 'migrations') },
  datasource: { url: process.env.DATABASE_URL ?? 'postgresql://localhost/backsight' },
});
