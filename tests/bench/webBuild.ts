// The web app as it is delivered, built into a folder of its own.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '../..');

/** Builds the web app and answers its folder; who asks removes it. @throws Error when it cannot be built */
export function builtWeb(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-web-'));
  const vite = [path.join(ROOT, 'node_modules/vite/bin/vite.js'), 'build', '--logLevel', 'error', '--outDir', folder, '--emptyOutDir'];
  const done = spawnSync(process.execPath, vite, { cwd: path.join(ROOT, 'apps/web'), stdio: 'inherit' });
  if (done.status !== 0) throw new Error('The web app cannot be built.');
  return folder;
}
