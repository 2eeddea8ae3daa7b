// Small helpers for server-rendered pages: everything that is put in is escaped unless it was made here.

/** Markup that is safe to put into a page as it is. */
export type Html = { markup: string };

const ESCAPES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

export const escaped = (text: string): string => text.replace(/[&<>"']/g, (letter) => ESCAPES[letter]!);

type Value = Html | string | number | null | false | readonly Html[];

const valueOf = (value: Value): string => {
  if (value === null || value === false) return '';
  if (typeof value === 'string' || typeof value === 'number') return escaped(String(value));
  return 'markup' in value ? value.markup : value.map(({ markup }) => markup).join('');
};

/** Template literal: texts are escaped, markup made by `html` is kept. */
export const html = (parts: TemplateStringsArray, ...values: Value[]): Html => ({
  markup: parts.reduce((all, part, at) => all + valueOf(values[at - 1] ?? null) + part),
});

/** A whole page for a client. It works without the scripts. */
export const pageOf = (title: string, content: Html, scripts: readonly string[] = []): string =>
  html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="robots" content="noindex" />
        <meta name="format-detection" content="telephone=no" />
        <title>${title}</title>
        <link rel="stylesheet" href="/client-page/style.css" />
        ${scripts.map((src) => html`<script src="${src}" defer></script>`)}
      </head>
      <body>
        <main>${content}</main>
      </body>
    </html>`.markup;
