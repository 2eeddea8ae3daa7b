// A program of a bench, bundled as the service is: what compiles the sources on the way names every function, which costs time.
import fs from 'node:fs';
import path from 'node:path';
import { build } from 'vite';

const ROOT = path.resolve(import.meta.dirname, '../../..');
/** Below the packages, which the bundle finds from there. */
const CACHE = path.join(ROOT, 'node_modules/.cache/backsight-bench');

/** Bundles `tests/bench/http/<name>.ts` into one file and answers where it lies. */
export async function builtProgram(name: string): Promise<string> {
  const outDir = path.join(CACHE, `${name}-${process.pid}`);
  await build({
    configFile: false,
    root: path.join(ROOT, 'apps/api'),
    logLevel: 'error',
    build: {
      ssr: true,
      outDir,
      target: 'node20',
      minify: false,
      sourcemap: true,
      rollupOptions: { input: { [name]: path.join(import.meta.dirname, `${name}.ts`) }, output: { entryFileNames: '[name].js' } },
    },
  });
  process.on('exit', () => fs.rmSync(outDir, { recursive: true, force: true }));
  return path.join(outDir, `${name}.js`);
}
