// Opinions of a callback besides conclusion and money: confirmations, accounts of the pair, counsel's marks; and what the one of the pair who is asked sees.
import { z } from 'zod';
import { day, id, idParams, instant, line, prose, route, warnings } from '../route.ts';
import { JUDGES, state } from './shapes.ts';

export { ACCOUNT_PROMPTS } from '@backsight/domain/callbacks/account';

const done = z.strictObject({ id, state, version: z.int(), warnings });
const act = { method: 'POST', area: 'callbacks', params: idParams, creates: true, who: JUDGES, reply: done } as const;
const account = z.strictObject({ id, seq: z.int(), seen: z.string(), did: z.string(), at: instant });

const opinions = z.strictObject({
  accounts: z.strictObject({
    /** No: whoever looks was on the job and is asked as well, so the own account comes first. */
    mayRead: z.boolean(),
    people: z.array(
      z.strictObject({
        personId: id,
        name: z.string(),
        askedBy: z.string(),
        askedAt: instant,
        given: z.boolean(),
        accounts: z.array(account),
      }),
    ),
    /** Who of the pair was not asked yet. */
    toAsk: z.array(z.strictObject({ id, name: z.string() })),
  }),
  marks: z.array(z.strictObject({ id, counsel: z.string(), requestedOn: day, by: z.string(), at: instant })),
  errorKinds: z.boolean(),
  /** Of the newest conclusion: whether it waits, and which way is open to whoever looks. */
  confirm: z.strictObject({ waits: z.boolean(), here: z.boolean(), outside: z.boolean() }),
});
export type CallbackOpinions = z.output<typeof opinions>;

const myAccount = z.strictObject({
  id,
  askedBy: z.string(),
  askedAt: instant,
  job: z.strictObject({ number: z.int(), address: z.string(), town: z.string(), inspectedOn: day.nullable() }),
  place: z.string(),
  accounts: z.array(account),
});
export type MyAccount = z.output<typeof myAccount>;

export const opinionRoutes = {
  one: route({
    method: 'GET',
    path: '/api/callbacks/:id/opinions',
    area: 'callbacks',
    summary: "Accounts of the pair, counsel's marks, and who may confirm the conclusion",
    who: JUDGES,
    params: idParams,
    reply: opinions,
  }),
  confirm: route({
    ...act,
    path: '/api/callbacks/:id/confirmation',
    summary: 'Stand behind the conclusion of somebody who was on the job; in a firm with nobody else, say who outside did',
    body: z.strictObject({ confirmationId: id, conclusionId: id, way: z.enum(['person', 'outside']), words: prose(2000).optional() }),
  }),
  ask: route({
    ...act,
    path: '/api/callbacks/:id/account-requests',
    summary: 'Ask one of the pair what was seen and done',
    body: z.strictObject({ requestId: id, personId: id }),
  }),
  mark: route({
    ...act,
    path: '/api/callbacks/:id/counsel-marks',
    summary: "Mark the opinions as prepared at counsel's request; a mark alone creates no privilege",
    body: z.strictObject({ markId: id, counsel: line(160), requestedOn: day }),
  }),
  myAccount: route({
    method: 'GET',
    path: '/api/accounts/:id',
    area: 'callbacks',
    summary: 'What somebody who was asked for an account sees: the job, the place, the own accounts',
    who: 'signed_in',
    of: 'asked',
    params: idParams,
    reply: myAccount,
  }),
  give: route({
    method: 'POST',
    path: '/api/accounts/:id',
    area: 'callbacks',
    summary: 'Give the own account of what was seen and done, or add a further one',
    who: 'signed_in',
    of: 'asked',
    params: idParams,
    creates: true,
    reply: z.strictObject({ id, seq: z.int() }),
    body: z.strictObject({ accountId: id, seen: prose(8000), did: prose(8000), further: z.boolean() }),
  }),
};

const permission = z.strictObject({
  allowed: z.boolean(),
  attorney: z.string().nullable(),
  askedOn: day.nullable(),
  by: z.string().nullable(),
  at: instant.nullable(),
});

export const errorKindRoutes = {
  one: route({
    method: 'GET',
    path: '/api/error-kinds',
    area: 'callbacks',
    summary: 'Whether kinds of human error are recorded, and which attorney was asked',
    who: JUDGES,
    reply: permission,
  }),
  allow: route({
    method: 'POST',
    path: '/api/error-kinds',
    area: 'callbacks',
    summary: 'Turn kinds of error on, after the attorney was asked, or off',
    who: ['owner'],
    creates: true,
    reply: z.strictObject({ allowed: z.boolean() }),
    body: z.strictObject({ allowed: z.boolean(), attorney: line(160).optional(), askedOn: day.optional() }),
  }),
};
