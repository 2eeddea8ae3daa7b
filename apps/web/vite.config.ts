// Builds the staff's web app and its service worker; during development the service answers /api, /client and /calendar.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

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

/** What most screens share comes in one piece, and the site record in another: a phone opens a few files sooner than a hundred. */
const groups = [
  { name: 'site', test: /features[\\/]sitework[\\/]/, minShareCount: 1, priority: 2, includeDependenciesRecursively: false },
  { name: 'shared', test: /./, minShareCount: 8, priority: 1, includeDependenciesRecursively: false },
];

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react(), worker()],
  build: {
    outDir: path.join(import.meta.dirname, 'dist'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    rolldownOptions: { output: { codeSplitting: { groups } } },
  },
  server: { proxy: { '/api': service, '/client': service, '/calendar': service } },
});
