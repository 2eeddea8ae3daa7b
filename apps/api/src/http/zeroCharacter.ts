// PostgreSQL keeps no text with U+0000 in it: whoever sends one is told where, before any use case runs.
import type { FastifyRequest } from 'fastify';

/** The dotted path of the first text with a zero character in what a request brought (path, query, body), or null. */
export function zeroCharacterIn({ params, query, body }: Pick<FastifyRequest, 'params' | 'query' | 'body'>): string | null {
  return [params, query, body].map((part) => pathOfZero(part)).find((path) => path !== null) ?? null;
}

/** An empty path means the value itself. Object keys count: some bodies are tables by key. */
function pathOfZero(value: unknown): string | null {
  if (typeof value === 'string') return value.includes('\u0000') ? '' : null;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const below = key.includes('\u0000') ? '' : pathOfZero(inner);
    if (below !== null) return [key.replaceAll('\u0000', ''), below].filter((part) => part !== '').join('.');
  }
  return null;
}
