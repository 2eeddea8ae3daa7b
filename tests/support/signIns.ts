// Signing in as somebody does: by address, password and code, with a cookie of one's own.
import type { FastifyInstance } from 'fastify';
import { CAST, PASSWORD, type CastName } from './cast.ts';
import type { TestApi } from './http.ts';

type Method = 'GET' | 'POST' | 'PUT' | 'DELETE' | 'PATCH';

export const cookieOf = (reply: { headers: Record<string, unknown> }): string => String(reply.headers['set-cookie']).split(';')[0]!;

/** Signs in from a browser that says it is `agent`. */
export const enter = (app: FastifyInstance, who: CastName, code?: string, agent = 'Heron 1.0') =>
  app.inject({
    method: 'POST',
    url: '/api/session',
    headers: { 'user-agent': agent },
    payload: { email: CAST[who].email, password: PASSWORD, ...(code === undefined ? {} : { code }) },
  });

/** Asks with a cookie; `cookie` of the answer is the one to go on with. */
export async function ask(app: FastifyInstance, cookie: string, method: Method, url: string, payload?: object, headers = {}) {
  const reply = await app.inject({ method, url, headers: { cookie, ...headers }, ...(payload ? { payload } : {}) });
  return { status: reply.statusCode, body: reply.json(), cookie: reply.headers['set-cookie'] ? cookieOf(reply) : cookie };
}

/** Lets time pass. */
export const later = (api: TestApi, seconds: number): Date => (api.clock.now = new Date(api.clock.now.getTime() + seconds * 1000));

/** What somebody was told last of a change of the own sign-in, without what begins and ends every such mail. */
export const lastTold = async (api: TestApi, to: string): Promise<string | undefined> =>
  (
    await api.database.read.rows<{ body: string }>(
      `SELECT body FROM outgoing_mail WHERE to_address = $1 AND message_key LIKE 'sign-in-changed:%' ORDER BY id DESC LIMIT 1`,
      [to],
    )
  )[0]?.body.split('\n\n')[1];
