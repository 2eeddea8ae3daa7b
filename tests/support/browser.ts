// Finds a browser without any download: CHROME_PATH, one of the system, else the Chromium that ships inside an npm package (linux x64).
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import zlib from 'node:zlib';
import { chromium, type Browser, type BrowserContext } from 'playwright-core';
import { setClock } from './sameHour.ts';

const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
  '--font-render-hinting=none',
];

const PROGRAM_FOLDERS = [process.env['ProgramFiles'], process.env['ProgramFiles(x86)'], process.env.LOCALAPPDATA].filter(
  (folder) => folder !== undefined,
);
const SYSTEM = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/microsoft-edge',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ...PROGRAM_FOLDERS.flatMap((folder) => [
    path.join(folder, 'Google/Chrome/Application/chrome.exe'),
    path.join(folder, 'Microsoft/Edge/Application/msedge.exe'),
  ]),
];

const root = path.resolve(import.meta.dirname, '../..');
const bareMachine = process.platform === 'linux' && process.arch === 'x64';

/** Two that are started at once unpack it once. */
let unpacking: ReturnType<typeof packaged> | undefined;

/** Starts a headless browser, for somebody who wants little motion: nothing is waited for that only glides. Its pages keep no app; those of `launchProfile` do. `ownTime`: whoever asks sets the clocks of its pages. @throws Error when the machine has none and the packaged one does not fit it. */
export async function launch({ ownTime = false } = {}): Promise<Browser> {
  const browser = await chromium.launch({ ...(await program()), args: ARGS });
  const usual = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await usual({ reducedMotion: 'reduce', serviceWorkers: 'block', ...options });
    return ownTime ? context : inTestTime(context);
  };
  return browser;
}

/** A browser that keeps what it stores in a folder, as a phone does, also when it is killed. @throws as launch does */
export const launchProfile = async (
  folder: string,
  options: Parameters<typeof chromium.launchPersistentContext>[1] = {},
): Promise<BrowserContext> =>
  inTestTime(
    await chromium.launchPersistentContext(folder, { ...(await program()), ...options, args: [...ARGS, ...(options.args ?? [])] }),
  );

/** Pages have the time of this process. */
async function inTestTime(context: BrowserContext): Promise<BrowserContext> {
  if (globalThis.hourMoved) await context.addInitScript(setClock, globalThis.hourMoved);
  return context;
}

async function program(): Promise<{ executablePath: string; env?: Record<string, string> }> {
  const given = process.env.CHROME_PATH ?? SYSTEM.find((file) => fs.existsSync(file));
  if (given) return { executablePath: given };
  if (bareMachine) return (unpacking ??= packaged());
  throw new Error('No browser found: set CHROME_PATH to a Chromium, Chrome or Edge.');
}

async function packaged(): Promise<{ executablePath: string; env: Record<string, string> }> {
  const dir = await unpacked();
  const executablePath = path.join(dir, 'chromium');
  const env = Object.fromEntries(Object.entries(process.env).filter((entry): entry is [string, string] => entry[1] !== undefined));
  // A bare machine lacks the NSS libraries, which come with the package.
  if (spawnSync(executablePath, ['--version']).status !== 0) env.LD_LIBRARY_PATH = path.join(dir, 'al2023', 'lib');
  if (!fs.existsSync('/etc/fonts/fonts.conf')) env.FONTCONFIG_FILE = ownFonts(dir);
  return { executablePath, env };
}

/** The package's browser and libraries, unpacked once under node_modules/.cache. */
async function unpacked(): Promise<string> {
  const entry = createRequire(import.meta.url).resolve('@sparticuz/chromium');
  const home = entry.slice(0, entry.lastIndexOf(path.join('@sparticuz', 'chromium')) + path.join('@sparticuz', 'chromium').length);
  const { version } = JSON.parse(fs.readFileSync(path.join(home, 'package.json'), 'utf8')) as { version: string };
  const dir = path.join(root, 'node_modules/.cache', `chromium-${version}`);
  if (fs.existsSync(dir)) return dir;
  const making = `${dir}.${process.pid}`;
  fs.mkdirSync(making, { recursive: true });
  const open = (file: string) =>
    fs.createReadStream(path.join(home, 'bin', file)).pipe(zlib.createBrotliDecompress({ chunkSize: 2 ** 20 }));
  await pipeline(open('chromium.br'), fs.createWriteStream(path.join(making, 'chromium'), { mode: 0o755 }));
  const tar = createRequire(path.join(home, 'package.json'))('tar-fs') as { extract: (folder: string) => NodeJS.WritableStream };
  for (const file of ['al2023.tar.br', 'fonts.tar.br']) await pipeline(open(file), tar.extract(path.join(making, file.split('.')[0]!)));
  try {
    fs.renameSync(making, dir);
  } catch {
    fs.rmSync(making, { recursive: true, force: true }); // another process was faster
  }
  return dir;
}

/** A bare machine has no fonts either: the package brings one. */
function ownFonts(dir: string): string {
  const file = path.join(dir, 'fonts.conf');
  const text = `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>${path.join(dir, 'fonts')}</dir><cachedir>${path.join(dir, 'fontcache')}</cachedir></fontconfig>`;
  fs.writeFileSync(file, text);
  return file;
}
