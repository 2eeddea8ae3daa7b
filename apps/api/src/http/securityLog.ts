// The log of what matters for safety: every sign-in and every change of one, and every request that was refused; always on, whatever LOG_LEVEL says.
import { keyedDigest } from '@backsight/usecases/people/steps/password';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Services } from './services.ts';

declare module 'fastify' {
  interface FastifyRequest {
    /** Code of the problem that was answered. */
    refusal: string | null;
    /** Of a sign-in: whose, and with what besides the password. */
    signing: { personId?: string; account?: string; factor?: string } | null;
  }
}

/** Routes about how somebody signs in; what is done there is logged, elsewhere the audit trail has it. */
const SIGNING =
  /^\/api\/(?:session|set-up|me\/(?:password|second-factor|recovery-codes|sessions)|people\/:id\/(?:password|second-factor|sessions|invitation))(?:\/|$)/;
/** Not understood, not signed in, not allowed, too large, not valid, too often. */
const REFUSED = new Set([400, 401, 403, 413, 415, 422, 429]);

/** Under which an address that was typed is found again in the log, without the log holding it. */
export const accountOf = ({ secretKey }: Services, email: string): string =>
  keyedDigest(secretKey, email.trim().toLowerCase()).slice(0, 16);

/** One line for each such request: when (UTC), what, by whom, from where, how it ended, and the id that its reply names. No address, no secret. */
export function securityLog(app: FastifyInstance, services: Services): void {
  const { logLevel, demo } = services.config;
  const log = app.log.child({ log: 'security' }, { level: logLevel === 'silent' || demo ? 'silent' : 'info' });
  app.decorateRequest('refusal', null);
  app.decorateRequest('signing', null);
  app.addHook('onResponse', async (request, reply) => {
    const route = request.routeOptions.url ?? 'no such address';
    const refused = REFUSED.has(reply.statusCode);
    if (!refused && !(request.method !== 'GET' && SIGNING.test(route))) return;
    log.info(
      {
        reqId: request.id,
        event: `${request.method} ${route}`,
        outcome: refused ? 'refused' : reply.statusCode < 400 ? 'done' : 'failed',
        status: reply.statusCode,
        from: request.ip,
        ...who(request),
        ...(request.refusal === null ? {} : { code: request.refusal }),
      },
      'security',
    );
  });
}

const who = ({ session, signing }: FastifyRequest) => ({ ...(session ? { personId: session.personId } : {}), ...signing });
