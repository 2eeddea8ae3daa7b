// What a log line may hold: no private link, no query, no address of a person, and of an error nothing that a row holds.
import { randomUUID } from 'node:crypto';
import type { Writable } from 'node:stream';
import type { FastifyServerOptions } from 'fastify';
import type { Config } from '../config.ts';

/** Private links end in 43 characters that open them; longer and shorter runs of such characters are not shown either. */
const SECRET = /[\w-]{40,}/g;
/** A path without its query, and with every private link in it hidden. */
export const shownPath = (url: string): string => url.replace(/[?#].*$/s, '').replace(SECRET, '(private)');

type Failed = Error & { code?: unknown; constraint?: unknown };
/** PostgreSQL tells the values of a row in `detail` and `where`: they stay out. */
const shownError = (error: Failed) => ({
  type: error.name,
  message: error.message,
  stack: error.stack ?? '',
  ...(error.code === undefined ? {} : { code: error.code }),
  ...(error.constraint === undefined ? {} : { constraint: error.constraint }),
});

/** One JSON object a line, each with the id of its request, which the reply names too. Ids that callers send are not taken. */
export const logging = (
  { logLevel }: Config,
  stream?: Writable,
): Pick<FastifyServerOptions, 'logger' | 'genReqId' | 'requestIdHeader'> => ({
  logger: {
    level: logLevel,
    ...(stream ? { stream } : {}),
    timestamp: () => `,"time":"${new Date().toISOString()}"`,
    serializers: {
      req: (request) => ({ method: request.method, url: shownPath(request.url) }),
      res: (reply) => ({ statusCode: reply.statusCode }),
      err: shownError,
    },
  },
  genReqId: () => randomUUID(),
  requestIdHeader: false,
});
