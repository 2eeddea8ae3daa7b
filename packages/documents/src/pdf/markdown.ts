// Markdown (CommonMark with tables) as the blocks of a paper. Line breaks stay where the writer put them; HTML is shown as it was typed, never obeyed.
import { lexer, type Token, type Tokens } from 'marked';
import type { Block, Run } from './content.ts';

/** The blocks of a text; its highest heading becomes level 2, and no level is skipped. */
export function markdownBlocks(text: string): Block[] {
  const tokens = lexer(text.replaceAll('\r\n', '\n'), { gfm: true, breaks: true });
  const highest = Math.min(6, ...tokens.filter(({ type }) => type === 'heading').map((token) => (token as Tokens.Heading).depth));
  return blocksOf(tokens, { highest, last: 1 });
}

type Levels = { highest: number; last: number };

const blocksOf = (tokens: readonly Token[], levels: Levels): Block[] => tokens.flatMap((token) => blockOf(token, levels));

function blockOf(token: Token, levels: Levels): Block[] {
  switch (token.type) {
    case 'heading':
      return [headingOf(token as Tokens.Heading, levels)];
    case 'list':
      return [listOf(token as Tokens.List, levels)];
    case 'table':
      return [tableOf(token as Tokens.Table)];
    case 'blockquote':
      return blocksOf((token as Tokens.Blockquote).tokens, levels);
    case 'space':
    case 'hr':
    case 'def':
      return [];
    case 'code':
      return [{ kind: 'text', words: (token as Tokens.Code).text }];
    default:
      return [{ kind: 'text', words: runsOf([token]) }];
  }
}

function headingOf({ depth, tokens }: Tokens.Heading, levels: Levels): Block {
  const level = Math.min(depth - levels.highest + 2, levels.last + 1, 4) as 2 | 3 | 4;
  levels.last = level;
  return { kind: 'heading', level, words: runsOf(tokens) };
}

const listOf = (list: Tokens.List, levels: Levels): Block => ({
  kind: 'list',
  from: list.ordered ? Number(list.start === '' ? 1 : list.start) : null,
  items: list.items.map((item) => blocksOf(item.tokens, levels)),
});

const tableOf = ({ header, rows, align }: Tokens.Table): Block => ({
  kind: 'table',
  heads: header.map(({ tokens }) =>
    runsOf(tokens)
      .map(({ text }) => text)
      .join(''),
  ),
  rows: rows.map((row) => row.map(({ tokens }) => runsOf(tokens))),
  amounts: align.flatMap((side, at) => (side === 'right' ? [at] : [])),
});

/** Inline tokens as runs. */
function runsOf(tokens: readonly Token[], face: Omit<Run, 'text'> = {}): Run[] {
  return tokens.flatMap((token): Run[] => {
    if (token.type === 'br') return [{ ...face, text: '\n' }];
    if (token.type === 'image') return [{ ...face, text: (token as Tokens.Image).text }];
    const inner = 'tokens' in token && token.tokens ? token.tokens : null;
    if (!inner) return [{ ...face, text: 'text' in token ? String(token.text) : token.raw }];
    if (token.type === 'strong') return runsOf(inner, { ...face, bold: true });
    if (token.type === 'em') return runsOf(inner, { ...face, italic: true });
    if (token.type !== 'link') return runsOf(inner, face);
    const { href, text } = token as Tokens.Link;
    return [...runsOf(inner, face), ...(text === href ? [] : [{ ...face, text: ` (${href})` }])];
  });
}
