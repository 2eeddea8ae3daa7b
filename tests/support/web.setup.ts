// The web app of a test run as it ships; every browser test serves a copy of it, which nobody builds anew beneath the run.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { TestProject } from 'vitest/node';
import { ensureWebBuilt } from '../../apps/api/scripts/lib.mjs';

declare module 'vitest' {
  export interface ProvidedContext {
    web: string;
  }
}

export default function setup(project: TestProject): () => void {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-web-'));
  fs.cpSync(ensureWebBuilt(), folder, { recursive: true });
  project.provide('web', folder);
  return () => fs.rmSync(folder, { recursive: true, force: true });
}
