// The design language stands in one file: no other names a color, a size of type or a corner, nor the left or right of a screen.
import fs from 'node:fs';
import path from 'node:path';
import type { SourceFile } from './read.ts';

const TOKENS = 'apps/web/src/app/tokens.css';
/** Where the library's names are said in ours. */
const THEME = 'apps/web/src/app/theme.ts';

type Rule = readonly [pattern: RegExp, rule: string];
const RAW_COLOR: Rule = [
  /(?<![\w&/#-])#(?:[0-9a-f]{3,4}|[0-9a-f]{6}|[0-9a-f]{8})\b(?!-)|\b(?:rgba?|hsla?|oklch|hwb)\(/i,
  'colors stand in tokens.css; use one of its names, var(--bs-...)',
];
const LIBRARY_COLOR: Rule = [/--mantine-color-/, 'colors by purpose, var(--bs-...), not the steps of a palette of the library'];
/** Four values, the second and the last different: one for the left and another for the right. */
const UNEVEN_SIDES: Rule = [
  /(?:margin|padding|inset):\s*(?:var\([\w-]+\)|[\w.-]+)\s+((?:var\([\w-]+\)|[\w.-]+))\s+(?:var\([\w-]+\)|[\w.-]+)\s+(?!\1;)(?:var\([\w-]+\)|[\w.-]+);/,
  'padding-inline and the like where start and end differ',
];
const IN_STYLES: readonly Rule[] = [
  RAW_COLOR,
  UNEVEN_SIDES,
  LIBRARY_COLOR,
  [
    /(?:^|[\s;{])(?:margin|padding|border|scroll-margin|scroll-padding)-(?:left|right)\b/,
    'inline-start and inline-end instead of left and right',
  ],
  [/(?:^|[\s;{])(?:left|right)\s*:/, 'inset-inline-start and inset-inline-end instead of left and right'],
  [/border-(?:top|bottom)-(?:left|right)-radius/, 'border-start-start-radius and the like instead of left and right'],
  [/(?:text-align|float|clear)\s*:\s*(?:left|right)\b/, 'start and end instead of left and right'],
  [/font-size\s*:(?!\s*(?:var\(--bs-text-|inherit))/, 'sizes of type stand in tokens.css, var(--bs-text-...)'],
  [/border-radius\s*:[^;]*\dpx/, 'corners stand in tokens.css, var(--bs-radius)'],
];
const IN_SCREENS: readonly Rule[] = [
  RAW_COLOR,
  LIBRARY_COLOR,
  [/\b(?:margin|padding|border)(?:Left|Right)\b/, 'marginInlineStart and the like instead of left and right'],
  [/textAlign: ['"](?:left|right)|\bta="(?:left|right)"/, 'start and end instead of left and right'],
  [/\s(?:ml|mr|pl|pr)=/, 'ms, me, ps and pe instead of left and right'],
  [/\bfontSize: (?!['"`]?(?:var\(--bs-text-|inherit))/, 'sizes of type stand in tokens.css, var(--bs-text-...)'],
];

const isScreen = ({ path: at }: SourceFile): boolean => at.startsWith('apps/web/src/') && /\.tsx?$/.test(at);

/** One message for each raw color, size of type, corner, left or right outside the file of tokens. `files` may hold styles and screens. */
export const checkDesign = (files: readonly SourceFile[]): string[] =>
  files
    .filter((file) => file.path !== TOKENS && (file.path.endsWith('.css') || isScreen(file)))
    .flatMap(({ path: at, text }) =>
      text.split('\n').flatMap((line, n) =>
        (at.endsWith('.css') ? IN_STYLES : IN_SCREENS)
          .filter((rule) => !(at === THEME && rule === LIBRARY_COLOR))
          .filter(([pattern]) => pattern.test(line.replace(/\/\*.*?\*\/|\/\/ .*$/g, '')))
          .map(([, rule]) => `${at}:${n + 1} breaks a rule of the house. Rule: ${rule}.`),
      ),
    );

/** The style sheets of the web app, and that of the pages of clients. */
export const styleSheets = (root: string): SourceFile[] =>
  ['apps/web/src', 'apps/api/src'].flatMap((folder) =>
    fs
      .readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.css'))
      .sort()
      .map((name) => ({
        path: `${folder}/${name.split(path.sep).join('/')}`,
        text: fs.readFileSync(path.join(root, folder, name), 'utf8'),
      })),
  );

/** What cannot read a token has to say one of its colors all the same: the page's frame, the mark, the list for a home screen. */
export function strayColors(root: string): string[] {
  const tokens = fs.readFileSync(path.join(root, TOKENS), 'utf8');
  return ['index.html', 'public/favicon.svg', 'public/manifest.webmanifest'].flatMap((name) =>
    [...fs.readFileSync(path.join(root, 'apps/web', name), 'utf8').matchAll(/#[0-9a-f]{6}\b/gi)]
      .filter(([color]) => !tokens.includes(color.toLowerCase()))
      .map(([color]) => `apps/web/${name} says ${color}, which is no token`),
  );
}
