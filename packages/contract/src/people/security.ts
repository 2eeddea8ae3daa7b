// One's own sessions and second factor.
import { z } from 'zod';
import { id, idParams, instant, route } from '../route.ts';

const area = 'people';
const own = { area, who: 'signed_in', beforeFactor: true } as const;
const password = z.string().min(1).max(400);
const codes = z.strictObject({ codes: z.array(z.string()).describe('Shown this once; each is good once') });
const nothing = z.strictObject({});
const code = z.string().trim().min(1).max(60).describe('Of the phone, or a recovery code');
/** Whoever tries passwords here is slowed down as at the sign-in. */
const slow = { requestsPerMinute: 20 } as const;

const security = z.strictObject({
  factor: z.enum(['on', 'off']),
  mustHave: z.boolean(),
  codesLeft: z.int(),
  sessions: z.array(z.strictObject({ id, agent: z.string(), beganAt: instant, lastSeenAt: instant, here: z.boolean() })),
});
export type Security = z.output<typeof security>;

export const securityRoutes = {
  security: route({ ...own, method: 'GET', path: '/api/me/security', summary: "One's own sessions and second factor", reply: security }),
  begin: route({
    ...own,
    method: 'POST',
    path: '/api/me/second-factor',
    summary: 'Begin a second factor: a secret for the phone (RFC 6238)',
    ...slow,
    body: z.strictObject({ password }),
    reply: z.strictObject({ secret: z.string(), uri: z.string() }),
  }),
  confirm: route({
    ...own,
    method: 'PUT',
    path: '/api/me/second-factor',
    summary: 'Confirm the second factor with a code of the phone',
    ...slow,
    body: z.strictObject({ code: z.string().trim().min(1).max(40) }),
    reply: codes,
  }),
  remove: route({
    method: 'POST',
    path: '/api/me/second-factor/off',
    area,
    who: 'signed_in',
    summary: 'Take the second factor off, with password and code',
    ...slow,
    body: z.strictObject({ password, code }),
    reply: nothing,
  }),
  renewCodes: route({
    method: 'POST',
    path: '/api/me/recovery-codes',
    area,
    who: 'signed_in',
    summary: 'New recovery codes in the place of the old ones, with password and code',
    ...slow,
    body: z.strictObject({ password, code }),
    reply: codes,
  }),
  endSessions: route({
    method: 'POST',
    path: '/api/me/sessions/end',
    area,
    who: 'signed_in',
    summary: "End one of one's own other sessions, or all of them, with the password",
    ...slow,
    body: z.strictObject({ password, id: id.optional().describe('Which one; left out: all but this one') }),
    reply: z.strictObject({ ended: z.int() }),
  }),
  endAll: route({
    method: 'POST',
    path: '/api/people/:id/sessions/end',
    area,
    who: ['owner'],
    summary: "Sign somebody out everywhere, with one's own password",
    ...slow,
    params: idParams,
    body: z.strictObject({ password }),
    reply: z.strictObject({ ended: z.int() }),
  }),
  reset: route({
    method: 'POST',
    path: '/api/people/:id/second-factor/off',
    area,
    who: ['owner'],
    summary: "Take off the second factor of somebody who lost phone and codes, with one's own password",
    ...slow,
    params: idParams,
    body: z.strictObject({ password }),
    reply: nothing,
  }),
};
