// How much script a browser loads before it can draw a screen, read from the built files: the page's own script, that of the screen, and all that these import.
import fs from 'node:fs';
import path from 'node:path';
import zlib from 'node:zlib';

/** Bytes of script; `gzip` and `brotli` as the files are sent. */
export type Weight = { files: number; plain: number; gzip: number; brotli: number };

/** Imports that are loaded at once; `import('./x.js')` is loaded when asked for. */
const STATIC = /(?:\bfrom|\bimport)\s*["']\.\/([\w.~-]+\.js)["']/g;

const sum = (weights: readonly Weight[]): Weight => {
  const of = (part: keyof Weight): number => weights.reduce((total, weight) => total + weight[part], 0);
  return { files: of('files'), plain: of('plain'), gzip: of('gzip'), brotli: of('brotli') };
};

/** Of one script that is not built, as a small server's answer. */
export const weightOfText = (text: string): Weight => ({
  files: 1,
  plain: Buffer.byteLength(text),
  gzip: zlib.gzipSync(text).length,
  brotli: zlib.brotliCompressSync(text).length,
});

/** Weighs screens of a built app in `folder`. @throws Error where a screen has no file of its own. */
export function scale(folder: string): (...screens: readonly string[]) => Weight {
  const assets = path.join(folder, 'assets');
  const names = fs.readdirSync(assets).filter((name) => name.endsWith('.js'));
  const page = fs.readFileSync(path.join(folder, 'index.html'), 'utf8');
  const first = /src="\/assets\/([^"]+\.js)"/.exec(page)![1]!;
  const fileOf = (screen: string): string => {
    const found = names.find((name) => name.startsWith(`${screen}-`));
    if (!found) throw new Error(`The build has no file for ${screen}.`);
    return found;
  };
  const size = (name: string): number => fs.statSync(path.join(assets, name)).size;
  return (...screens) => {
    const loaded = new Set<string>();
    const toRead = [first, ...screens.map(fileOf)];
    for (let name = toRead.pop(); name !== undefined; name = toRead.pop()) {
      if (loaded.has(name)) continue;
      loaded.add(name);
      for (const [, other] of fs.readFileSync(path.join(assets, name), 'utf8').matchAll(STATIC)) toRead.push(other!);
    }
    return sum([...loaded].map((name) => ({ files: 1, plain: size(name), gzip: size(`${name}.gz`), brotli: size(`${name}.br`) })));
  };
}
