// The session cookie: who is asking. SameSite=Strict, HttpOnly; Secure and under a __Host- name when the public address is https.
import type { FastifyReply, FastifyRequest } from 'fastify';
import { whoIs, type Session } from '@backsight/usecases/people/signIn';
import type { Services } from './services.ts';

/** The prefix makes browsers refuse a cookie of that name from another host or over http (RFC 6265bis, 4.1.3.2); over http they would refuse ours. */
const isSecure = ({ config }: Services): boolean => config.publicUrl.startsWith('https:');
const nameOf = (services: Services): string => (isSecure(services) ? '__Host-backsight_session' : 'backsight_session');

declare module 'fastify' {
  interface FastifyRequest {
    session: Session | null;
  }
}

/** The token that a request brings. */
export function sessionToken(services: Services, request: FastifyRequest): string | undefined {
  const token = request.cookies[nameOf(services)];
  return token && token.length <= 100 ? token : undefined;
}

/** Reads the cookie and looks up the living session. A window that asks by itself says so (`x-at-rest`), which keeps nobody signed in. */
export async function readSession(services: Services, request: FastifyRequest): Promise<Session | null> {
  const token = sessionToken(services, request);
  const atRest = request.headers['x-at-rest'] === '1';
  return token === undefined ? null : whoIs(services, token, { idle: services.config.idleMinutes, atRest });
}

/** Its length is told, not its end: a phone whose clock is wrong by hours would drop it at once or too late. */
export function setSessionCookie(services: Services, reply: FastifyReply, token: string, expires: Date): void {
  reply.setCookie(nameOf(services), token, {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    secure: isSecure(services),
    maxAge: Math.round((expires.getTime() - services.clock().getTime()) / 1000),
  });
}

/** The same session under another token. */
export const renewSessionCookie = (services: Services, reply: FastifyReply, session: Session, token: string): void =>
  setSessionCookie(services, reply, token, session.expiresAt);

export const clearSessionCookie = (services: Services, reply: FastifyReply): FastifyReply =>
  reply.clearCookie(nameOf(services), { path: '/', httpOnly: true, sameSite: 'strict', secure: isSecure(services) });

/** A write that another site's page makes the browser send: refused whatever the cookie says. */
export function comesFromElsewhere(request: FastifyRequest): boolean {
  if (request.method === 'GET' || request.method === 'HEAD') return false;
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return true;
  const origin = request.headers.origin;
  if (origin === undefined) return false;
  try {
    return new URL(origin).host !== request.host;
  } catch {
    return true;
  }
}
