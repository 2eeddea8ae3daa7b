// What every answer says to the browser: what a page may load and do, who may frame it, that nothing of a person is kept in a cache.
import helmet from '@fastify/helmet';
import type { FastifyInstance } from 'fastify';
import type { Config } from '../config.ts';

/**
 * Nothing inline, nothing of another site, no frames. `blob:` are photos and spoken notes that wait on the phone, `data:` signatures as they are
 * drawn.
 */
const POLICY = {
  'default-src': ["'none'"],
  'script-src': ["'self'"],
  'style-src': ["'self'"],
  'img-src': ["'self'", 'data:', 'blob:'],
  'media-src': ["'self'", 'blob:'],
  'font-src': ["'self'"],
  'connect-src': ["'self'"],
  'worker-src': ["'self'"],
  'manifest-src': ["'self'"],
  'base-uri': ["'none'"],
  'form-action': ["'self'"],
  'frame-ancestors': ["'none'"],
};
type Policy = Record<string, readonly string[]>;
const said = (policy: Policy): string =>
  Object.entries(policy)
    .map(([what, from]) => `${what} ${from.join(' ')}`)
    .join(';');

/** Of the staff's app and the pages of the API's description: their components write the sizes of their columns as style elements. */
export const STYLES_INSIDE = said({ ...POLICY, 'style-src': ["'self'", "'unsafe-inline'"] });

/** The spoken note needs the microphone, a photo the camera, an overdue return the screen; nothing else is ever asked for. */
const PERMISSIONS = [
  ...['camera', 'microphone', 'screen-wake-lock'].map((mine) => `${mine}=(self)`),
  ...['geolocation', 'payment', 'usb', 'serial', 'bluetooth', 'midi', 'display-capture', 'browsing-topics'].map((none) => `${none}=()`),
].join(', ');

/** Hangs the headers. HSTS for two years, where people come by https. */
export async function safeHeaders(app: FastifyInstance, { publicUrl }: Config): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: POLICY },
    frameguard: { action: 'deny' },
    referrerPolicy: { policy: 'no-referrer' },
    strictTransportSecurity: publicUrl.startsWith('https:') && { maxAge: 63_072_000, includeSubDomains: true },
  });
  app.addHook('onSend', async (request, reply) => {
    reply.header('permissions-policy', PERMISSIONS);
    if (!reply.hasHeader('cache-control')) reply.header('cache-control', 'no-store');
    if (request.url.startsWith('/api/docs')) reply.header('content-security-policy', STYLES_INSIDE);
  });
}
