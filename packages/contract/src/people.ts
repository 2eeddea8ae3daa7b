// People of the firm and signing in.
import { z } from 'zod';
import { ALL_ROLES } from '@backsight/domain/people/roles';
import { day, id, idParams, instant, line, made, phone, route } from './route.ts';

export { ROLES, type Role } from '@backsight/domain/people/roles';

export const roleSchema = z.enum(ALL_ROLES as [(typeof ALL_ROLES)[number], ...(typeof ALL_ROLES)[number][]]);

export const person = z.strictObject({
  id,
  officeId: id,
  name: z.string(),
  email: z.string(),
  phone: z.string(),
  trainee: z.boolean(),
  mayLead: z.boolean(),
  homeAddress: z.string().describe('Empty for inspectors who ask about somebody else; then without the place too'),
  homeLat: z.number().nullable(),
  homeLon: z.number().nullable(),
  startedOn: day,
  endedOn: day.nullable(),
  version: z.int(),
  canSignIn: z.boolean().describe('Has a password'),
  roles: z.array(roleSchema),
});
export type Person = z.output<typeof person>;

const editable = {
  name: line(120),
  email: z.email().max(200),
  phone,
  trainee: z.boolean(),
  mayLead: z.boolean(),
  homeAddress: line(200),
  homeLat: z.number().min(-90).max(90),
  homeLon: z.number().min(-180).max(180),
  roles: z.array(roleSchema).max(4),
};

export const me = z.strictObject({
  id,
  name: z.string(),
  roles: z.array(roleSchema),
  demo: z.boolean(),
  firm: z.string(),
  zone: z.string(),
  factorNeeded: z.boolean().describe('The second factor has still to be set up; nothing else can be done before'),
  pastPercent: z.number().int().optional().describe("Percent of the demo firm's past that is loaded, while it is being loaded"),
});

export const peopleRoutes = {
  signIn: route({
    method: 'POST',
    path: '/api/session',
    area: 'people',
    summary: 'Sign in',
    who: 'anyone',
    body: z.strictObject({ email: z.string().max(200), password: z.string().max(400), code: z.string().max(60).optional() }),
    reply: z.strictObject({ id, name: z.string() }),
  }),
  forgotten: route({
    method: 'POST',
    path: '/api/session/forgotten',
    area: 'people',
    summary: 'Ask for a mail with a link to choose a new password; the answer is the same whether the address is known or not',
    who: 'anyone',
    requestsPerMinute: 10,
    body: z.strictObject({ email: z.string().trim().min(1).max(200) }),
    reply: z.strictObject({}),
  }),
  byLink: route({
    method: 'POST',
    path: '/api/session/new-password',
    area: 'people',
    summary: 'Choose a password by the link of a mail; it opens once',
    who: 'anyone',
    requestsPerMinute: 10,
    body: z.strictObject({ token: z.string().max(100), password: z.string().max(400) }),
    reply: z.strictObject({}),
  }),
  invite: route({
    method: 'POST',
    path: '/api/people/:id/invitation',
    area: 'people',
    summary: 'Send somebody new a mail with a link to choose a password',
    who: ['owner', 'office_manager'],
    params: idParams,
    reply: z.strictObject({ until: instant }),
  }),
  signOut: route({
    method: 'DELETE',
    path: '/api/session',
    area: 'people',
    summary: 'Sign out',
    who: 'signed_in',
    beforeFactor: true,
    reply: z.strictObject({}),
  }),
  me: route({
    method: 'GET',
    path: '/api/me',
    area: 'people',
    summary: 'Who is signed in',
    who: 'signed_in',
    beforeFactor: true,
    reply: me,
  }),
  list: route({
    method: 'GET',
    path: '/api/people',
    area: 'people',
    summary: 'Everybody in the firm',
    who: 'signed_in',
    reply: z.array(person),
  }),
  one: route({
    method: 'GET',
    path: '/api/people/:id',
    area: 'people',
    summary: 'One person',
    who: 'signed_in',
    of: 'person',
    params: idParams,
    reply: person,
  }),
  add: route({
    method: 'POST',
    path: '/api/people',
    area: 'people',
    summary: 'Add a person',
    who: ['owner', 'office_manager'],
    creates: true,
    reply: made,
    body: z.strictObject({ id, officeId: id, startedOn: day, password: z.string().max(400).optional(), ...editable }),
  }),
  ownPassword: route({
    method: 'PUT',
    path: '/api/me/password',
    area: 'people',
    summary: "Change one's own password",
    who: 'signed_in',
    requestsPerMinute: 20,
    body: z.strictObject({ present: z.string().max(400), password: z.string().max(400) }),
    reply: z.strictObject({}),
  }),
  setPassword: route({
    method: 'PUT',
    path: '/api/people/:id/password',
    area: 'people',
    summary: "Give a person a new password, with one's own",
    who: ['owner'],
    params: idParams,
    requestsPerMinute: 20,
    body: z.strictObject({ owners: z.string().max(400), password: z.string().max(400) }),
    reply: z.strictObject({}),
  }),
  change: route({
    method: 'PATCH',
    path: '/api/people/:id',
    area: 'people',
    summary: 'Change a person',
    who: ['owner'],
    edits: true,
    params: idParams,
    reply: z.strictObject({ id, version: z.int() }),
    body: z
      .strictObject({
        ...editable,
        endedOn: day.nullable(),
        password: z.string().max(400).describe("One's own, where the address changes"),
      })
      .partial(),
  }),
};
