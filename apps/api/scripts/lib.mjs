// What has to be there before anything can run: packages, the Prisma client, the built web app and service. Node's own modules only.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';

export const root = path.resolve(import.meta.dirname, '../../..');
const begun = performance.now();
export const say = (line) => console.log(`[${((performance.now() - begun) / 1000).toFixed(1).padStart(5)} s] ${line}`);

export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if ((major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major >= 24) return;
  console.error(`Node ${process.versions.node} is too old: 20.19, 22.12 or 24 and newer are needed.`);
  process.exit(1);
}

const SKIP = /^(node_modules|dist|generated|\..*)$/;

function filesBelow(name) {
  const full = path.join(root, name);
  if (!fs.existsSync(full)) return [];
  if (fs.statSync(full).isFile()) return [full];
  return fs
    .readdirSync(full, { withFileTypes: true })
    .filter((e) => !SKIP.test(e.name))
    .flatMap((e) => filesBelow(path.join(name, e.name)))
    .sort();
}

function digest(inputs) {
  const hash = createHash('sha256').update(`${process.platform}-${process.arch}-${process.versions.node.split('.')[0]}`);
  for (const file of inputs.flatMap(filesBelow))
    hash.update(path.relative(root, file).replaceAll('\\', '/')).update('\0').update(fs.readFileSync(file)).update('\0');
  return hash.digest('hex');
}

/** Whether something has to be made: its inputs changed since it was last made, or it is gone. */
function stale({ stamp, inputs, output }) {
  const file = path.join(root, stamp);
  return !(fs.existsSync(file) && fs.readFileSync(file, 'utf8') === digest(inputs) && fs.existsSync(path.join(root, output)));
}

function stampOf({ stamp, inputs }) {
  const file = path.join(root, stamp);
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, digest(inputs));
}

function ensure(thing) {
  if (!stale(thing)) return;
  say(thing.what);
  run(process.execPath, ...thing.make);
  stampOf(thing);
}

export function run(command, args, options = {}) {
  const done = spawnSync(command, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'], ...options });
  if (done.error) throw done.error;
  if (done.status !== 0) {
    console.error(`${path.basename(command)} ${args.join(' ')} failed (${done.status ?? done.signal})`);
    process.exit(done.status ?? 1);
  }
}

/** True when node_modules holds what the lock file wants, however it got there. */
function packagesAreCurrent() {
  try {
    const want = JSON.parse(fs.readFileSync(path.join(root, 'package-lock.json'), 'utf8')).packages;
    const have = JSON.parse(fs.readFileSync(path.join(root, 'node_modules/.package-lock.json'), 'utf8')).packages;
    return Object.entries(want).every(
      ([name, p]) => !name.includes('node_modules/') || p.optional || p.peer || have[name]?.version === p.version,
    );
  } catch {
    return false;
  }
}

export function ensurePackages() {
  if (packagesAreCurrent()) return;
  say('installing packages (first start, or after an update; about a minute)');
  const args = ['ci', '--include=dev', '--no-audit', '--no-fund', '--ignore-scripts', '--loglevel=error'];
  const env = { ...process.env, NODE_ENV: '' };
  const npm = process.env.npm_execpath; // the npm that runs this script, also where there is no npm on the path
  if (npm && /\.[cm]?js$/.test(npm)) run(process.execPath, [npm, ...args], { env });
  else run(process.platform === 'win32' ? 'npm.cmd' : 'npm', args, { env, shell: process.platform === 'win32' });
}

const vite = (folder, more = {}) => [
  [path.join(root, 'node_modules/vite/bin/vite.js'), 'build', '--logLevel', 'error'],
  { cwd: path.join(root, folder), env: { ...process.env, NODE_ENV: 'production' }, ...more }, // a test runner's own "test" would build React for development
];

const CLIENT = {
  what: 'generating the database client',
  stamp: 'packages/store/src/generated/.stamp',
  inputs: ['prisma/schema.prisma', 'apps/api/scripts/generate.mjs'],
  output: 'packages/store/src/generated/client.ts',
  make: [['apps/api/scripts/generate.mjs']],
};
const WEB = {
  what: 'building the web app',
  stamp: 'apps/web/dist/.stamp',
  inputs: ['apps/web', 'packages/contract', 'packages/domain', 'package-lock.json'],
  output: 'apps/web/dist/index.html',
  make: vite('apps/web'),
};
const SERVICE = {
  what: 'building the service',
  stamp: 'apps/api/dist/.stamp',
  inputs: ['apps/api', 'packages', 'prisma/seed', 'prisma/schema.prisma', 'package-lock.json'],
  output: 'apps/api/dist/main.js',
  make: vite('apps/api'),
};

export const ensureGenerated = () => ensure(CLIENT);

/** @returns the folder that holds the web app */
export function ensureWebBuilt() {
  ensure(WEB);
  return path.join(root, 'apps/web/dist');
}

export const ensureServiceBuilt = () => ensure(SERVICE);

export function ensureBuilt() {
  ensureWebBuilt();
  ensureServiceBuilt();
}

/** Builds the web app beside whatever else is made. @returns what is settled when it is there, and rejected when it cannot be built */
export async function webBuilding() {
  if (!stale(WEB)) return;
  say(WEB.what);
  const child = spawn(process.execPath, ...vite('apps/web', { stdio: ['ignore', 'inherit', 'inherit'] }));
  await new Promise((resolve, reject) =>
    child.on('error', reject).on('exit', (code) => (code === 0 ? resolve() : reject(new Error('the web app could not be built')))),
  );
  stampOf(WEB);
}
