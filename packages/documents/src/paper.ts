// A paper of the firm as one HTML file that needs nothing else: it prints on US Letter and A4, and its text can be searched and copied.

export type PaperTable = {
  heads: readonly string[];
  rows: readonly (readonly string[])[];
  /** Columns with amounts, counted from 0. */ amounts?: readonly number[];
};
export type PaperPart = {
  heading?: string;
  /** What is said in pairs: name, value. */
  pairs?: readonly (readonly [string, string])[];
  table?: PaperTable;
  /** Paragraphs, line breaks kept. */
  text?: string;
};
export type Paper = { title: string; firm: string; firmLines: readonly string[]; parts: readonly PaperPart[]; foot: string };

const SIGNS: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
const safe = (text: string): string => text.replaceAll(/[&<>"']/g, (sign) => SIGNS[sign]!);

const STYLE = `@page{margin:18mm}body{font:11pt/1.45 system-ui,sans-serif;color:#111;max-width:46rem;margin:2rem auto;padding:0 1rem}h1{font-size:1.5rem;margin:1.5rem 0 .5rem}
h2{font-size:1.1rem;margin:1.5rem 0 .4rem;break-after:avoid}table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.25rem .75rem .25rem 0;border-bottom:1px solid #bbb}
.n{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums;padding-right:0}dl{display:grid;grid-template-columns:max-content 1fr;gap:.2rem 1rem;margin:0}dt{color:#444}dd{margin:0}
pre{font:inherit;white-space:pre-wrap;overflow-wrap:anywhere;margin:0}footer{margin-top:2rem;border-top:1px solid #bbb;padding-top:.5rem;font-size:.9em;color:#444}tr{break-inside:avoid}`;

function tableOf({ heads, rows, amounts = [] }: PaperTable): string {
  const kind = (at: number): string => (amounts.includes(at) ? ' class="n"' : '');
  const head = heads.map((text, at) => `<th scope="col"${kind(at)}>${safe(text)}</th>`).join('');
  const body = rows.map((cells) => `<tr>${cells.map((text, at) => `<td${kind(at)}>${safe(text)}</td>`).join('')}</tr>`).join('\n');
  return `<table><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table>`;
}

const partOf = ({ heading, pairs, table, text }: PaperPart): string =>
  [
    heading === undefined ? '' : `<h2>${safe(heading)}</h2>`,
    pairs ? `<dl>${pairs.map(([name, value]) => `<dt>${safe(name)}</dt><dd>${safe(value)}</dd>`).join('')}</dl>` : '',
    table ? tableOf(table) : '',
    text === undefined ? '' : `<pre>${safe(text)}</pre>`,
  ]
    .filter(Boolean)
    .join('\n');

export const paperHtml = (paper: Paper): string => `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${safe(paper.title)}</title><style>${STYLE}</style></head>
<body><header><strong>${safe(paper.firm)}</strong><br>${paper.firmLines.map(safe).join('<br>')}</header>
<main><h1>${safe(paper.title)}</h1>
${paper.parts.map(partOf).join('\n')}
</main><footer>${safe(paper.foot)}</footer></body></html>
`;
