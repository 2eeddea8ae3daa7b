// Pages, style and scripts for people without a sign-in, sent as small as their browser takes them.
import zlib from 'node:zlib';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';

/** Of a page that is made anew for each request: above this, brotli takes longer than it saves. */
const QUICK = { params: { [zlib.constants.BROTLI_PARAM_QUALITY]: 5 } };
/** No cache keeps it, no other site learns its address, no search engine lists it. */
export const PRIVATE = { 'cache-control': 'no-store', 'referrer-policy': 'no-referrer', 'x-robots-tag': 'noindex' };

/** The smaller way to write a text that a browser says it takes; null where it takes none. */
function encodingFor(request: FastifyRequest): 'br' | 'gzip' | null {
  const accepted = String(request.headers['accept-encoding'] ?? '');
  return (['br', 'gzip'] as const).find((one) => new RegExp(`\\b${one}\\b(?!\\s*;\\s*q=0(?!\\.\\d*[1-9]))`).test(accepted)) ?? null;
}

/**
 * Sends a page that is kept nowhere. To pack it gives nothing away, though what is typed is shown again beside names and a link's token:
 * whoever would guess a secret by the length of answers (BREACH) must make the victim's browser ask for the page with words of his own,
 * and the pages know no cookie. Their address is the secret: who can ask for one has it already. Answers to people who are signed in are
 * known by their cookie, and stay as they are.
 */
export function sendPage(reply: FastifyReply, status: number, page: string): FastifyReply {
  const encoding = encodingFor(reply.request);
  reply
    .code(status)
    .headers({ ...PRIVATE, vary: 'accept-encoding' })
    .type('text/html; charset=utf-8');
  if (encoding === null) return reply.send(page);
  return reply.header('content-encoding', encoding).send(encoding === 'br' ? zlib.brotliCompressSync(page, QUICK) : zlib.gzipSync(page));
}

/** Hangs a text under an address of its own. It is packed once, and may be kept for an hour. */
export function serveText(app: FastifyInstance, at: string, type: 'text/javascript' | 'text/css', text: string): void {
  const packed = { br: zlib.brotliCompressSync(text), gzip: zlib.gzipSync(text) };
  app.get(at, { schema: { hide: true } }, (request, reply) => {
    const encoding = encodingFor(request);
    reply.headers({ 'cache-control': 'public, max-age=3600', vary: 'accept-encoding' }).type(`${type}; charset=utf-8`);
    return encoding ? reply.header('content-encoding', encoding).send(packed[encoding]) : reply.send(text);
  });
}
