// What of the site work is had on paper.
import { z } from 'zod';
import { day, id, idParams, route } from '../route.ts';

export const siteworkPaperRoutes = {
  daySheet: route({
    method: 'GET',
    path: '/api/people/:id/day-sheet/:day',
    area: 'sitework',
    summary: 'The day of a person on paper (PDF): visits, access, contacts, kit, deadlines; of oneself, for the office of anybody',
    who: 'signed_in',
    of: 'person',
    params: z.strictObject({ id, day }),
    reply: z.unknown(),
  }),
  report: route({
    method: 'GET',
    path: '/api/reports/:id/paper',
    area: 'sitework',
    summary: 'A report drafted from the sealed record as a paper (PDF)',
    who: 'signed_in',
    of: 'report',
    params: idParams,
    reply: z.unknown(),
  }),
};
