// One's own sessions and second factor.
import { z } from 'zod';
import { id, idParams, instant, route } from '../route.ts';

const area = 'people';
const own = { area, who: 'signed_in', beforeFactor: true } as const;
const password = z.string().min(1).max(400);
const codes = z.strictObject({ codes: z.array(z.string()).describe('Shown this once; each is good once') });
const nothing = z.strictObject({});

const security = z.strictObject({
  factor: z.enum(['on', 'off']),
  mustHave: z.boolean(),
  codesLeft: z.int(),
  sessions: z.array(z.strictObject({ id, agent: z.string(), beganAt: instant, here: z.boolean() })),
});
export type Security = z.output<typeof security>;

export const securityRoutes = {
  security: route({ ...own, method: 'GET', path: '/api/me/security', summary: "One's own sessions and second factor", reply: security }),
  begin: route({
    ...own,
    method: 'POST',
    path: '/api/me/second-factor',
    summary: 'Begin a second factor: a secret for the phone (RFC 6238)',
    body: z.strictObject({ password }),
    reply: z.strictObject({ secret: z.string(), uri: z.string() }),
  }),
  confirm: route({
    ...own,
    method: 'PUT',
    path: '/api/me/second-factor',
    summary: 'Confirm the second factor with a code of the phone',
    body: z.strictObject({ code: z.string().trim().min(1).max(40) }),
    reply: codes,
  }),
  remove: route({
    method: 'POST',
    path: '/api/me/second-factor/off',
    area,
    who: 'signed_in',
    summary: 'Take the second factor off',
    body: z.strictObject({ password }),
    reply: nothing,
  }),
  renewCodes: route({
    method: 'POST',
    path: '/api/me/recovery-codes',
    area,
    who: 'signed_in',
    summary: 'New recovery codes in the place of the old ones',
    body: z.strictObject({ password }),
    reply: codes,
  }),
  endSession: route({
    method: 'DELETE',
    path: '/api/me/sessions/:id',
    area,
    who: 'signed_in',
    summary: "End one of one's own sessions",
    params: idParams,
    reply: nothing,
  }),
  endOthers: route({
    method: 'POST',
    path: '/api/me/sessions/end-others',
    area,
    who: 'signed_in',
    summary: "End all of one's own sessions but this one",
    reply: z.strictObject({ ended: z.int() }),
  }),
  reset: route({
    method: 'DELETE',
    path: '/api/people/:id/second-factor',
    area,
    who: ['owner'],
    summary: 'Take off the second factor of somebody who lost phone and codes',
    params: idParams,
    reply: nothing,
  }),
};
