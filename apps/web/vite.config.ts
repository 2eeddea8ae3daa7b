// Builds the staff's web app and its service worker; during development the service answers /api, /client and /calendar.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { promisify } from 'node:util';
import zlib from 'node:zlib';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { leanContract } from './leanContract.ts';

const service = 'http://127.0.0.1:4800';

/** Writes sw.js with the list of everything that was built: exactly that is kept on a phone, and a changed file makes a new version. */
const worker = (): Plugin => ({
  name: 'service-worker',
  apply: 'build',
  enforce: 'post',
  generateBundle(_options, bundle) {
    const own = fs.readdirSync(path.join(import.meta.dirname, 'public')).map((name) => `/${name}`);
    const built = Object.keys(bundle).filter((name) => name !== 'index.html');
    const page = bundle['index.html'];
    const html = page?.type === 'asset' ? String(page.source) : '';
    const files = ['/', ...own, ...built.map((name) => `/${name}`)].sort();
    const source = fs.readFileSync(path.join(import.meta.dirname, 'sw.js'), 'utf8');
    const version = createHash('sha256').update(JSON.stringify(files)).update(html).update(source).digest('hex').slice(0, 16);
    this.emitFile({
      type: 'asset',
      fileName: 'sw.js',
      source: source
        .replace('const FILES = []', `const FILES = ${JSON.stringify(files)}`)
        .replace("const VERSION = ''", `const VERSION = '${version}'`),
    });
  },
});

const brotli = promisify(zlib.brotliCompress);
const gzip = promisify(zlib.gzip);
/** One step below the best: a fortieth larger, in half the time. */
const EFFORT = { params: { [zlib.constants.BROTLI_PARAM_QUALITY]: 10 } };

/** Every text is written twice more, compressed, so that the service sends it small without any work. */
const compressed = (): Plugin => ({
  name: 'compressed',
  apply: 'build',
  async writeBundle({ dir }, bundle) {
    const texts = Object.keys(bundle).filter((name) => /\.(js|css|html)$/.test(name));
    await Promise.all(
      texts.map(async (name) => {
        const file = path.join(dir!, name);
        const text = await fs.promises.readFile(file);
        await fs.promises.writeFile(`${file}.br`, await brotli(text, EFFORT));
        await fs.promises.writeFile(`${file}.gz`, await gzip(text));
      }),
    );
  },
});

type Parts = { getModuleInfo: (id: string) => { importedIds: readonly string[] } | null };
let onSite: ReadonlySet<string> | undefined;

/** Our own files that the site record draws with, found once from its page on. */
function siteFiles(parts: Parts): ReadonlySet<string> {
  const found = new Set<string>();
  const toRead = [path.join(import.meta.dirname, 'src/features/sitework/RecordPage.tsx')];
  for (let id = toRead.pop(); id !== undefined; id = toRead.pop()) {
    if (found.has(id) || id.includes('node_modules')) continue;
    found.add(id);
    toRead.push(...(parts.getModuleInfo(id)?.importedIds ?? []));
  }
  return found;
}

/** What the site record takes of the component library besides what every screen begins with. */
const SITE_INPUTS = /@mantine[\\/](core[\\/]esm[\\/]components[\\/](Textarea|TextInput|FileButton)|hooks[\\/]esm[\\/]use-merged-ref)/;

/**
 * What every screen begins with comes in one piece, and so does the site record: a phone opens a few files sooner than a hundred, and
 * loads nothing that it does not draw with. What other screens share is put together where it is small.
 */
const groups = [
  { name: 'start', tags: ['$initial' as const], test: (id: string) => !/index\.html|main\.tsx/.test(id), priority: 3 },
  { name: (id: string, parts: Parts) => ((onSite ??= siteFiles(parts)).has(id) || SITE_INPUTS.test(id) ? 'site' : null), priority: 2 },
  { name: 'part', test: /./, priority: 1, minShareCount: 2, entriesAware: true, entriesAwareMergeThreshold: 3_000 },
].map((group) => ({ ...group, includeDependenciesRecursively: false }));

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react(), leanContract(), worker(), compressed()],
  build: {
    outDir: path.join(import.meta.dirname, 'dist'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    rolldownOptions: { output: { codeSplitting: { groups } } },
  },
  server: { proxy: { '/api': service, '/client': service, '/calendar': service } },
});
