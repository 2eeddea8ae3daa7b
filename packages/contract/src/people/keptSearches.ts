// Searches of lists that a person gave a name.
import { z } from 'zod';
import { SEARCHED_LISTS } from '@backsight/domain/people/keptSearches';
import { id, idParams, line, made, route } from '../route.ts';

export { SEARCHED_LISTS, type SearchedList } from '@backsight/domain/people/keptSearches';

const area = 'people';
const name = line(60);
const kept = {
  id,
  list: z.enum(SEARCHED_LISTS),
  name,
  /** The rest of the address, from its question mark on. */
  search: z
    .string()
    .max(1000)
    .regex(/^\?[^\s#\u0000]*$/, 'This is no search: it begins with a question mark.'),
};
const keptSearch = z.strictObject(kept);
export type KeptSearch = z.output<typeof keptSearch>;

export const keptSearchRoutes = {
  list: route({
    method: 'GET',
    path: '/api/kept-searches',
    area,
    summary: 'Own kept searches, by list and name',
    who: 'signed_in',
    reply: z.array(keptSearch),
  }),
  keep: route({
    method: 'POST',
    path: '/api/kept-searches',
    area,
    summary: 'Keep a search of a list under a name of its own',
    who: 'signed_in',
    creates: true,
    reply: made,
    body: keptSearch,
  }),
  rename: route({
    method: 'PUT',
    path: '/api/kept-searches/:id/name',
    area,
    summary: 'Give an own kept search another name',
    who: 'signed_in',
    of: 'own',
    params: idParams,
    reply: made,
    body: z.strictObject({ name }),
  }),
  remove: route({
    method: 'DELETE',
    path: '/api/kept-searches/:id',
    area,
    summary: 'Delete an own kept search',
    who: 'signed_in',
    of: 'own',
    params: idParams,
    reply: made,
  }),
};
