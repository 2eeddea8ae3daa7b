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
/** The best there is, for what is read so much oftener than built. */
const EFFORT = {
  params: { [zlib.constants.BROTLI_PARAM_QUALITY]: 11, [zlib.constants.BROTLI_PARAM_MODE]: zlib.constants.BROTLI_MODE_TEXT },
};

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

type Parts = { getModuleInfo: (id: string) => { importedIds: readonly string[]; importers: readonly string[] } | null };
const CONTRACT = /packages\/contract\/src\//;
const SITE = /(web\/src\/features|domain\/src)\/sitework\//;
/** Whether a file belongs to the site screens and nobody else draws with it. */
const onSiteAlone = (id: string, parts: Parts): boolean =>
  SITE.test(id) && (parts.getModuleInfo(id)?.importers.every((by) => SITE.test(by) || CONTRACT.test(by)) ?? false);

/** A page of the site with what it is drawn with, as far as `also` lets through; found once for each. */
function filesOf(page: string, also: (id: string, parts: Parts) => boolean) {
  let found: Set<string> | undefined;
  return (id: string, parts: Parts): boolean => {
    if (found) return found.has(id);
    found = new Set();
    const toRead = [path.join(import.meta.dirname, 'src/features/sitework', page)];
    for (let next = toRead.pop(); next !== undefined; next = toRead.pop()) {
      if (found.has(next) || !also(next, parts)) continue;
      found.add(next);
      toRead.push(...(parts.getModuleInfo(next)?.importedIds ?? []));
    }
    return found.has(id);
  };
}
const ofRecord = filesOf('RecordPage.tsx', onSiteAlone);
const SHARED = /src[\\/](ui|api)[\\/]/;
const [reachesDay, reachesRecord] = ['MyDayPage.tsx', 'RecordPage.tsx'].map((page) => filesOf(page, (id) => !/node_modules/.test(id)));
/** What the day draws with as the office does: kept from being put together with forms that a phone has no use for. */
const ofDay = (id: string, parts: Parts): boolean => SHARED.test(id) && reachesDay!(id, parts) && !reachesRecord!(id, parts);

/** The small parts, most of them of the component library, that most screens of the office draw with. */
const FIELDS =
  /@mantine[\\/](hooks|core[\\/]esm[\\/](components[\\/](Alert|Badge|CloseButton|Fieldset|Input|InputBase|NativeSelect|TextInput|VisuallyHidden|Combobox[\\/](ComboboxChevron|get-parsed))|core[\\/]styles-api[\\/]use-resolved))|src[\\/]ui[\\/]useOpener/;

/**
 * What every screen begins with comes in one piece, and so does the site record: a phone opens a few files sooner than a hundred, and
 * loads nothing that it does not draw with. What other screens share is put together where it is small.
 */
const shared = { minShareCount: 2, entriesAware: true, entriesAwareMergeThreshold: 1_500 };
const groups = [
  { name: 'start', tags: ['$initial' as const], test: (id: string) => !/index\.html|main\.tsx/.test(id), priority: 3 },
  { name: (id: string, parts: Parts) => (ofRecord(id, parts) ? 'site' : null), priority: 2 },
  { name: 'fields', test: FIELDS, priority: 2 },
  { name: (id: string, parts: Parts) => (ofDay(id, parts) ? 'day' : null), priority: 1 },
  // Each is opened by itself.
  { name: (id: string) => /src[\\/]ui[\\/]acts[\\/](\w+)\.tsx$/.exec(id)?.[1] ?? null, priority: 2 },
  { name: 'menu', test: /src[\\/]app[\\/]/, priority: 2 },
  { name: (id: string, parts: Parts) => (onSiteAlone(id, parts) ? 'sitepart' : null), ...shared, priority: 1 },
  { name: 'uipart', test: /src[\\/](ui|api)[\\/]/, ...shared, priority: 1 },
  { name: 'part', test: /./, ...shared, priority: 0 },
].map((group) => ({ ...group, includeDependenciesRecursively: false }));

/** What is shared is named by its hash alone: the first script lists every file that a screen needs, and its names are part of its weight. */
const nameOf = ({ name }: { name: string }): string => (/^(site|ui)?part~/.test(name) ? 'assets/[hash:7].js' : 'assets/[name]-[hash].js');

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react(), leanContract(), worker(), compressed()],
  build: {
    outDir: path.join(import.meta.dirname, 'dist'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: { output: { codeSplitting: { groups }, chunkFileNames: nameOf } },
  },
  server: { proxy: { '/api': service, '/client': service, '/calendar': service } },
});
