// After the seal: the record on paper, supplements, and giving it out by an owner's act.
import { z } from 'zod';
import { GIVEN_TO, type GivenTo } from '@backsight/domain/sitework/afterSeal';
import { id, idParams, instant, made, prose, route } from '../route.ts';

const to = z.enum(Object.keys(GIVEN_TO) as [GivenTo, ...GivenTo[]]);
const area = 'sitework';

export const afterSeal = z.strictObject({
  supplements: z.array(z.strictObject({ id, text: z.string().nullable(), by: z.string(), happenedAt: instant, recordedAt: instant })),
  givenOut: z.array(z.strictObject({ id, to, text: z.string().nullable(), by: z.string(), happenedAt: instant })),
});

export const afterSealRoutes = {
  read: route({
    method: 'GET',
    path: '/api/records/:id/after-seal',
    area,
    summary: 'Supplements of a sealed site record, and to whom it was given',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    reply: afterSeal,
  }),
  paper: route({
    method: 'GET',
    path: '/api/records/:id/paper',
    area,
    summary: 'A sealed site record as a work paper (PDF); for the pair and those who lead',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    reply: z.unknown(),
  }),
  supplement: route({
    method: 'POST',
    path: '/api/records/:id/supplements',
    area,
    summary: 'Add what was found or remembered after the seal',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    creates: true,
    body: z.strictObject({ id, text: prose(4000), happenedAt: instant }),
    reply: made,
  }),
  giveOut: route({
    method: 'POST',
    path: '/api/records/:id/given-out',
    area,
    summary: 'Give a sealed site record out; by an owner only, with to whom and why',
    who: ['owner'],
    params: idParams,
    creates: true,
    body: z.strictObject({ id, to, words: prose(1000) }),
    reply: made,
  }),
};
