// A paper as it was written, in headings, paragraphs, lists and tables: nothing in it is taken for HTML.
import { createElement, type ReactNode } from 'react';
import type { PaperBlock, PaperWords } from '@backsight/contract/agreementTexts';

/** `top` is the level of the highest heading here, below the screen's own. */
export function PaperBlocks({ blocks, top = 3 }: { blocks: readonly PaperBlock[]; top?: number }): ReactNode {
  return (
    <>
      {blocks.map((block, at) => (
        <Block key={at} block={block} top={top} />
      ))}
    </>
  );
}

function Block({ block, top }: { block: PaperBlock; top: number }): ReactNode {
  if (block.kind === 'heading') return createElement(`h${Math.min(6, (block.level ?? 2) - 2 + top)}`, null, <Words of={block.words} />);
  if (block.items) {
    const items = block.items.map((item, at) => (
      <li key={at}>
        <PaperBlocks blocks={item} top={top} />
      </li>
    ));
    return typeof block.from === 'number' ? <ol start={block.from}>{items}</ol> : <ul>{items}</ul>;
  }
  if (block.rows) {
    return (
      <table>
        <thead>
          <tr>
            {block.heads?.map((head, at) => (
              <th key={at} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {block.rows.map((cells, at) => (
            <tr key={at}>
              {cells.map((cell, place) => (
                <td key={place}>
                  <Words of={cell} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    );
  }
  return (
    <p style={{ whiteSpace: 'pre-line', overflowWrap: 'anywhere', margin: 'var(--bs-space-3) 0' }}>
      <Words of={block.words} />
    </p>
  );
}

function Words({ of = '' }: { of: PaperWords | undefined }): ReactNode {
  if (typeof of === 'string') return of;
  return of.map(({ text, bold, italic }, at) => {
    const said = italic ? <em>{text}</em> : text;
    return bold ? <strong key={at}>{said}</strong> : <span key={at}>{said}</span>;
  });
}
