// The session cookie: who is asking. SameSite=Strict, httpOnly, Secure when the public address is https.
import type { FastifyReply, FastifyRequest } from 'fastify';
import { whoIs, type Session } from '@backsight/usecases/people/signIn';
import type { Services } from './services.ts';

const COOKIE = 'backsight_session';

declare module 'fastify' {
  interface FastifyRequest {
    session: Session | null;
  }
}

/** Reads the cookie and looks up the living session. */
export async function readSession(services: Services, request: FastifyRequest): Promise<Session | null> {
  const token = request.cookies[COOKIE];
  return token && token.length <= 100 ? whoIs(services.database.read, token, services.clock()) : null;
}

/** Its length is told, not its end: a phone whose clock is wrong by hours would drop it at once or too late. */
export function setSessionCookie(services: Services, reply: FastifyReply, token: string, expires: Date): void {
  reply.setCookie(COOKIE, token, {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    secure: services.config.publicUrl.startsWith('https:'),
    maxAge: Math.round((expires.getTime() - services.clock().getTime()) / 1000),
  });
}

export const clearSessionCookie = (reply: FastifyReply): FastifyReply => reply.clearCookie(COOKIE, { path: '/' });

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
