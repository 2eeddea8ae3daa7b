// Screens take colors, sizes of type and corners from the file of tokens, and know no left and right; each rule finds a planted fault.
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { stylesTaken, stylesUsed } from './checkComponentStyles.ts';
import { checkDesign, strayColors, styleSheets } from './checkDesign.ts';
import { expectNone } from './expectNone.ts';
import { repository } from './read.ts';
import { styleOf } from '../../apps/api/src/http/client/style.ts';

const root = path.resolve(import.meta.dirname, '../..');

it('no screen and no style sheet names what the tokens name', () => expectNone(checkDesign([...styleSheets(root), ...repository()])));
it('what cannot read a token says one of its colors', () => expect(strayColors(root)).toEqual([]));

it("the styles of the library's parts are those that screens draw with, in the library's order", () => {
  const taken = stylesTaken(fs.readFileSync(path.join(root, 'apps/web/src/app/components.css'), 'utf8'));
  expect(taken).toEqual(stylesUsed(root, repository()));
});

describe("the style of clients' pages", () => {
  const tokens = ':root {\n  --bs-ink: light-dark(#111111, #eeeeee);\n  --bs-edge: 1px solid var(--bs-ink);\n  --bs-other: 3px;\n}';
  it('holds the tokens that it reads, and the dark colors in words that old phones know, on screens alone', () =>
    expect(styleOf(tokens, 'p { border: var(--bs-edge) }')).toBe(
      ':root{--bs-edge:1px solid var(--bs-ink);--bs-ink:#111111;}@media screen{:root{color-scheme:light dark}}' +
        '@media screen and (prefers-color-scheme:dark){:root{--bs-ink:#eeeeee;}}p { border: var(--bs-edge) }',
    ));
  it('reads no token that there is not', () => expect(() => styleOf(tokens, 'p { color: var(--bs-inc) }')).toThrow('--bs-inc'));
});

describe('the check', () => {
  const css = 'apps/web/src/ui/a.module.css';
  const tsx = 'apps/web/src/ui/A.tsx';
  it.each([
    [css, '.a { color: #fff; }'],
    [css, '.a { background: rgb(0 0 0 / 10%); }'],
    [css, '.a { border: 1px solid var(--mantine-color-gray-3); }'],
    [css, '  margin-left: var(--bs-space-4);'],
    [css, '  left: 0;'],
    [css, '  padding: 0 var(--bs-space-4) 0 0;'],
    [css, '  text-align: right;'],
    [css, '  border-top-left-radius: var(--bs-radius);'],
    [css, '  font-size: 0.85rem;'],
    [css, '  border-radius: 6px;'],
    [tsx, "const pen = { strokeStyle: '#1d1f1e' };"],
    [tsx, "<p style={{ paddingLeft: '1rem' }} />"],
    [tsx, "<p style={{ textAlign: 'left' }} />"],
    [tsx, '<Stack pl="md" />'],
    [tsx, "<p style={{ fontSize: '0.85rem' }} />"],
  ])('finds in %s: %s', (at, text) => {
    expect(checkDesign([{ path: at, text: `\n${text}` }])).toEqual([expect.stringMatching(`^${at}:2 breaks`)]);
  });
  it.each([
    [css, '.a { color: var(--bs-ink); border-inline-start: 1px solid var(--bs-line); text-align: start; inset-inline-start: 0; }'],
    [
      css,
      '/* the left: 0 of old */ .a { font-size: var(--bs-text-small); border-radius: var(--bs-radius); padding: 0 var(--bs-space-4) 1px var(--bs-space-4); } .b:focus-visible { outline: none; }',
    ],
    [tsx, 'const { left, right } = plotOf(size); // 3px left: #fff'],
    [tsx, '<a href="#main">Skip</a>'],
    ['packages/documents/src/pdf/bars.ts', "const ink = '#1d1f1e';"],
    ['apps/web/src/app/tokens.css', '  --bs-ink: #1d2427;'],
  ])('lets through in %s: %s', (at, text) => expect(checkDesign([{ path: at, text }])).toEqual([]));
});
