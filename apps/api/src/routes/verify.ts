// The public page at /verify: whether a fingerprint is that of a paper of the firm. It names nobody.
import type { FastifyInstance } from 'fastify';
import { lookUpFingerprint } from '@backsight/usecases/agreements/papers';
import { sendPage, serveText } from '../http/client/assets.ts';
import { VERIFY_SCRIPT, verifyPage } from '../http/client/verify.ts';
import type { Services } from '../http/services.ts';

const FINGERPRINT = /^[0-9a-f]{64}$/;

export function verifyPages(app: FastifyInstance, services: Services): void {
  const options = { config: { rateLimit: { max: 30, timeWindow: '1 minute' } }, schema: { hide: true } };
  app.get('/verify', options, async (request, reply) => {
    const given = (request.query as { sha256?: unknown }).sha256;
    const asked = typeof given === 'string' ? given.slice(0, 200).replaceAll(/\s/g, '').toLowerCase() : '';
    const checked = FINGERPRINT.test(asked) ? await lookUpFingerprint(services.database.read, asked) : null;
    return sendPage(reply, asked !== '' && checked === null ? 422 : 200, verifyPage(asked, checked));
  });
  serveText(app, '/verify.js', 'text/javascript', VERIFY_SCRIPT);
}
