// How much script each kind of person loads first. Whoever has https gets brotli, which a phone needs anyway to work without signal.
import fs from 'node:fs';
import { KEEP_SCRIPT } from '../../apps/api/src/http/client/keepScript.ts';
import { REPORT_SCRIPT } from '../../apps/api/src/http/client/reportScript.ts';
import { SCRIPT } from '../../apps/api/src/http/client/script.ts';
import { scale, weightOfText, type Weight } from '../support/weight.ts';
import type { Bench, Row } from './bench.ts';
import { builtWeb } from './webBuild.ts';

const KB = 1024;
const CLIENT = 60;
const STAFF = 250;
const PHONE = 150;
/** What browsers call slow 3G: bits a second, and seconds there and back. */
const SLOW_3G = { bits: 400_000, wait: 0.4 };
/** A wide window asks for the menu and the go-to box at once; on a phone they come behind the screen. */
const BESIDE = ['shellNavigation', 'GoTo'];
/** Screen of the app, who opens it, most KB of compressed script. */
const SCREENS: readonly (readonly [string, string, number])[] = [
  ['HomePage', 'staff: home', STAFF],
  ['SignInPage', 'anybody: sign in', STAFF],
  ['JobPage', 'staff: one job', STAFF],
  ['CallbackPage', 'staff: one callback', STAFF],
  ['OwnerPage', "staff: owner's page", STAFF],
  ['MyDayPage', 'phone: my day', PHONE],
  ['RecordPage', 'phone: site record', PHONE],
];

const rowOf = (what: string, { files, plain, gzip, brotli }: Weight, most: number): Row => ({
  what,
  files,
  'plain KB': plain / KB,
  'gzip KB': gzip / KB,
  'brotli KB': brotli / KB,
  'slow 3G s': SLOW_3G.wait + (8 * brotli) / SLOW_3G.bits,
  'most KB': most,
  verdict: brotli / KB <= most ? 'within' : 'OVER',
});

const bench: Bench = {
  about:
    'script that a browser loads before the first picture, in KB of 1,024 bytes, and the seconds that it takes at 400 kbit/s; held to its limit as sent by brotli',
  run: (say) => {
    const folder = builtWeb();
    const told = (row: Row): void => {
      say(row);
      if (row['verdict'] === 'OVER') process.exitCode = 1;
    };
    told(rowOf('client: sign, release', weightOfText(SCRIPT + KEEP_SCRIPT), CLIENT));
    told(rowOf('client: report a problem', weightOfText(REPORT_SCRIPT), CLIENT));
    const weigh = scale(folder);
    for (const [screen, what, most] of SCREENS) told(rowOf(what, weigh(screen, ...(what.startsWith('staff') ? BESIDE : [])), most));
    fs.rmSync(folder, { recursive: true, force: true });
  },
};
export default bench;
