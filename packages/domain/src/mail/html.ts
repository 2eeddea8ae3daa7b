// The HTML of a mail, made from the same words as its text: paragraphs, lines and links, and nothing else.

const ESCAPES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
const escape = (text: string): string => text.replace(/[&<>"']/g, (char) => ESCAPES[char]!);

const LINK = /https?:\/\/[^\s<>"']+[^\s<>"'.,;:!?)]/g;

/** Escapes a line and makes its addresses links; an address ends before the punctuation behind it. */
function linked(line: string): string {
  let html = '';
  let from = 0;
  for (const found of line.matchAll(LINK)) {
    const address = escape(found[0]);
    html += `${escape(line.slice(from, found.index))}<a href="${address}">${address}</a>`;
    from = found.index + found[0].length;
  }
  return html + escape(line.slice(from));
}

/** A whole HTML page: blank lines part paragraphs, line ends are kept. */
export function mailHtml(subject: string, text: string): string {
  const paragraphs = text
    .replaceAll('\r\n', '\n')
    .trim()
    .split(/\n{2,}/)
    .map((paragraph) => `<p>${paragraph.split('\n').map(linked).join('<br>\n')}</p>`);
  const head = `<head><meta charset="utf-8"><title>${escape(subject)}</title></head>`;
  return `<!doctype html>\n<html lang="en">${head}<body>\n${paragraphs.join('\n')}\n</body></html>\n`;
}
