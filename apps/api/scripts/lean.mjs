// Leaves of node_modules what the built service runs on, for an image: npm's own pruning keeps the tools of building, because libraries
// name them as optional peers, and what the web app is built from.
import fs from 'node:fs';
import path from 'node:path';
import { root } from './lib.mjs';

const MODULES = path.join(root, 'node_modules');
/** Of the database client, what is for other databases and browsers. */
const OTHER_DATABASES = /^(query_compiler|query_engine).*\.(mysql|sqlite|sqlserver|cockroachdb)\.|^query_compiler_fast_/;

const manifest = (folder) => JSON.parse(fs.readFileSync(path.join(folder, 'package.json'), 'utf8'));

/** Where a package that `folder` asks for lies, as Node looks for it; undefined when it is not there. */
function found(folder, name) {
  for (let at = folder; at.startsWith(root); at = path.dirname(at)) {
    const here = path.join(at, 'node_modules', name);
    if (fs.existsSync(here)) return here;
  }
  return undefined;
}

/** Everything that a package needs, and what those need. */
function needed(first) {
  const kept = new Set([first]);
  const waiting = [first];
  for (let folder = waiting.pop(); folder !== undefined; folder = waiting.pop()) {
    const { dependencies = {}, optionalDependencies = {}, peerDependencies = {}, peerDependenciesMeta = {} } = manifest(folder);
    const peers = Object.keys(peerDependencies).filter((name) => !peerDependenciesMeta[name]?.optional);
    for (const name of [...Object.keys({ ...dependencies, ...optionalDependencies }), ...peers]) {
      const at = found(fs.realpathSync(folder), name);
      if (at === undefined || kept.has(at)) continue;
      kept.add(at);
      waiting.push(at);
    }
  }
  return kept;
}

/** Folders and links of packages directly in a node_modules. */
const packagesIn = (modules) =>
  fs
    .readdirSync(modules)
    .filter((name) => !name.startsWith('.'))
    .flatMap((name) =>
      name.startsWith('@')
        ? fs.readdirSync(path.join(modules, name)).map((one) => path.join(modules, name, one))
        : [path.join(modules, name)],
    );

function clear(modules, kept) {
  if (!fs.existsSync(modules)) return;
  for (const folder of packagesIn(modules)) {
    if (fs.lstatSync(folder).isSymbolicLink()) continue; // parts of this program
    if (kept.has(folder)) clear(path.join(folder, 'node_modules'), kept);
    else fs.rmSync(folder, { recursive: true, force: true });
  }
}

const api = path.join(root, 'apps/api');
const kept = needed(api);
clear(MODULES, kept);
clear(path.join(api, 'node_modules'), kept);
for (const gone of ['.bin', '.cache', '.package-lock.json']) fs.rmSync(path.join(MODULES, gone), { recursive: true, force: true });
const runtime = path.join(MODULES, '@prisma/client/runtime');
for (const file of fs.readdirSync(runtime)) if (OTHER_DATABASES.test(file)) fs.rmSync(path.join(runtime, file));
