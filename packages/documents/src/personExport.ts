// What one person gets of everything about them: a page to read, the same as data, and their papers.
import { strToU8, zipSync } from 'fflate';

export type ExportedTable = { name: string; rows: readonly Readonly<Record<string, unknown>>[] };
export type PersonExport = {
  firm: string;
  /** About whom, in words. */
  about: string;
  /** Instant as ISO text. */
  made: string;
  tables: readonly ExportedTable[];
  papers: readonly { name: string; sha256: string; bytes: Uint8Array }[];
  notHere: readonly { what: string; why: string }[];
};

const escape = (words: string): string =>
  words.replace(/[&<>"]/g, (one) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[one]!);
const title = (name: string): string => name.replaceAll('_', ' ').replace(/^./, (first) => first.toUpperCase());
const shown = (value: unknown): string => (typeof value === 'object' && value !== null ? JSON.stringify(value) : String(value ?? ''));
const empty = (value: unknown): boolean => value === null || value === '' || (Array.isArray(value) && value.length === 0);

function section({ name, rows }: ExportedTable): string {
  const entries = rows.map((row) => {
    const lines = Object.entries(row).filter(([key, value]) => !empty(value) && key !== 'id' && !key.endsWith('_id'));
    return `<dl>${lines.map(([key, value]) => `<dt>${escape(title(key))}</dt><dd>${escape(shown(value))}</dd>`).join('')}</dl>`;
  });
  return `<h2>${escape(title(name))} (${rows.length})</h2>${entries.join('\n')}`;
}

const STYLE =
  'body{font:16px/1.5 sans-serif;max-width:46rem;margin:2rem auto;padding:0 1rem}dl{display:grid;grid-template-columns:12rem 1fr;gap:.2rem 1rem;border-top:1px solid #999;padding-top:.6rem}dt{font-weight:600}dd{margin:0;white-space:pre-wrap;overflow-wrap:anywhere}@media(max-width:30rem){dl{grid-template-columns:1fr}}';

const list = (items: readonly string[]): string => `<ul>${items.map((item) => `<li>${item}</li>`).join('')}</ul>`;

function page(e: PersonExport, papers: readonly string[]): string {
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Personal data: ${escape(e.about)}</title><style>${STYLE}</style></head><body>
<h1>Personal data of ${escape(e.about)}</h1>
<p>Kept by ${escape(e.firm)}, as of ${escape(e.made)}. The same is in data.json, for a program. Times are in UTC, amounts in cents.</p>
${papers.length > 0 ? `<h2>Papers</h2>${list(e.papers.map(({ sha256 }, at) => `<a href="${escape(papers[at]!)}">${escape(papers[at]!)}</a> (SHA-256 ${sha256})`))}` : ''}
${e.tables.map(section).join('\n')}
<h2>What is not here, and why</h2>${list(e.notHere.map(({ what, why }) => `${escape(what)}: ${escape(why)}`))}
</body></html>`;
}

/** A ZIP file: index.html to read, data.json, and papers/. Equal input gives equal bytes. */
export function personExport(e: PersonExport): Uint8Array {
  const names = e.papers.map(({ name }, at) => `papers/${String(at + 1).padStart(2, '0')}-${name.replace(/[^\w.-]+/g, '-')}`);
  const data = {
    firm: e.firm,
    about: e.about,
    made: e.made,
    tables: Object.fromEntries(e.tables.map(({ name, rows }) => [name, rows])),
    notHere: e.notHere,
  };
  return zipSync(
    {
      'index.html': strToU8(page(e, names)),
      'data.json': strToU8(JSON.stringify(data, null, 2)),
      ...Object.fromEntries(e.papers.map(({ bytes }, at) => [names[at]!, bytes])),
    },
    { mtime: new Date(e.made) },
  );
}
