// Every screen of the staff has one line of help: under its title as a plain sentence, or by its address in ui/help.ts.
import path from 'node:path';
import type { SourceFile } from './read.ts';

const ROUTES = /^apps\/web\/src\/features\/.*outes\.ts$/i;
const SCREEN = /path: '([^']+)'(?:(?!createRoute)[\s\S])*?import\('(\.[^']+)'\)/g;
const SENTENCE = /\babout="[^"]{12,}"/;
const LINE = /^ {2}'(\/[^']*)':/gm;
/** Screens of nobody who is signed in. */
const OUTSIDE = ['/sign-in', '/forgotten', '/new-password/$token', '/set-up'];

const textOf = (files: readonly SourceFile[], at: string): string => files.find((one) => one.path === at)?.text ?? '';

/** Screens without a line, and lines without a screen. */
export function checkHelp(files: readonly SourceFile[]): string[] {
  const lines = new Set([...textOf(files, 'apps/web/src/ui/help.ts').matchAll(LINE)].map(([, at]) => at!));
  const screens = files
    .filter((file) => ROUTES.test(file.path))
    .flatMap(({ path: from, text }) =>
      [...text.matchAll(SCREEN)].map(([, at, screen]) => ({ at: at!, source: path.posix.join(path.posix.dirname(from), screen!) })),
    );
  const without = screens.filter(({ at, source }) => !OUTSIDE.includes(at) && !lines.has(at) && !SENTENCE.test(textOf(files, source)));
  return [
    ...without.map(({ at, source }) => `${source} (${at}) has no line of help. Rule: a sentence as about, or a line in ui/help.ts.`),
    ...[...lines]
      .filter((at) => !screens.some((screen) => screen.at === at))
      .map((at) => `ui/help.ts has a line for ${at}, which is no screen.`),
  ];
}
