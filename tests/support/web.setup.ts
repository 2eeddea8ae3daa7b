// The web app of a test run: built once, as it ships, into a folder of its own; every browser test serves that folder.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    web: string;
  }
}

const root = path.resolve(import.meta.dirname, '../..');

export default function setup(project: TestProject): () => void {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-web-'));
  const vite = [path.join(root, 'node_modules/vite/bin/vite.js'), 'build', '--logLevel', 'error', '--outDir', folder, '--emptyOutDir'];
  const env = { ...process.env, NODE_ENV: 'production' }; // the runner's own "test" would build React for development
  const done = spawnSync(process.execPath, vite, { cwd: path.join(root, 'apps/web'), env, stdio: 'inherit' });
  if (done.status !== 0) throw new Error('The web app cannot be built.');
  project.provide('web', folder);
  return () => fs.rmSync(folder, { recursive: true, force: true });
}
