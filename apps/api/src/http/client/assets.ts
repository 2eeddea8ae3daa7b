// Style and scripts of clients' pages, sent as small as the browser takes them.
import zlib from 'node:zlib';
import type { FastifyInstance } from 'fastify';

/** Hangs a text under an address of its own. It is packed once, and may be kept for an hour. */
export function serveText(app: FastifyInstance, at: string, type: 'text/javascript' | 'text/css', text: string): void {
  const packed = { br: zlib.brotliCompressSync(text), gzip: zlib.gzipSync(text) };
  app.get(at, { schema: { hide: true } }, (request, reply) => {
    const accepted = String(request.headers['accept-encoding'] ?? '');
    const encoding = (['br', 'gzip'] as const).find((one) => new RegExp(`\\b${one}\\b`).test(accepted));
    reply.headers({ 'cache-control': 'public, max-age=3600', vary: 'accept-encoding' }).type(`${type}; charset=utf-8`);
    return encoding ? reply.header('content-encoding', encoding).send(packed[encoding]) : reply.send(text);
  });
}
