// The words of a paper as markup of a page: headings, paragraphs, lists and tables, as the PDF has them.
import type { Block, Words } from '@backsight/documents/pdf/content';
import { markdownBlocks } from '@backsight/documents/pdf/markdown';
import { html, type Html } from './html.ts';

const runs = (words: Words): Html[] =>
  (typeof words === 'string' ? [{ text: words }] : words).map((run) =>
    'bold' in run && run.bold
      ? html`<strong>${run.text}</strong>`
      : 'italic' in run && run.italic
        ? html`<em>${run.text}</em>`
        : html`${run.text}`,
  );

/** The page has its own first two levels; those of the paper begin below. */
function blockOf(block: Block): Html {
  switch (block.kind) {
    case 'heading':
      return block.level === 2 ? html`<h3>${runs(block.words)}</h3>` : html`<h4>${runs(block.words)}</h4>`;
    case 'text':
      return html`<p>${runs(block.words)}</p>`;
    case 'notice':
      return html`<div class="note" role="note"><p>${runs(block.words)}</p></div>`;
    case 'list': {
      const items = block.items.map((item) => html`<li>${item.map(blockOf)}</li>`);
      return block.from === null
        ? html`<ul>
            ${items}
          </ul>`
        : html`<ol start="${block.from}">
            ${items}
          </ol>`;
    }
    case 'table':
      return html`<table>
        <thead>
          <tr>
            ${block.heads.map((head) => html`<th scope="col">${head}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${block.rows.map(
            (row) =>
              html`<tr>
                ${row.map((cell) => html`<td>${runs(cell)}</td>`)}
              </tr>`,
          )}
        </tbody>
      </table>`;
    case 'facts':
      return html`<dl>
        ${block.pairs.map(
          ([name, value]) =>
            html`<dt>${name}</dt>
              <dd>${value}</dd>`,
        )}
      </dl>`;
    default:
      return html``;
  }
}

export const paragraphs = (text: string): Html[] => markdownBlocks(text).map(blockOf);
