// Steps that a callback may be traced to, worked out while somebody looks.
import { z } from 'zod';
import { idParams, line, route } from '../route.ts';
import { JUDGES } from './shapes.ts';

const likelyStep = z.strictObject({ stepKey: z.string(), title: z.string(), procedureTitle: z.string(), reasons: z.array(z.string()) });
const likely = z.strictObject({
  /** Steps of the job's package; 0: there is no site record. */
  handedOut: z.int(),
  /** Of the package, best first. */
  likely: z.array(likelyStep),
  /** Asked by the procedures today, and not asked then. */
  notThen: z.array(likelyStep),
});
export type Likely = z.output<typeof likely>;
export type LikelyStep = Likely['likely'][number];

export const likelyRoutes = {
  read: route({
    method: 'GET',
    path: '/api/callbacks/:id/likely',
    area: 'callbacks',
    summary: 'Steps that a callback may be traced to, by its words or by those of a search; worked out now and kept nowhere',
    who: JUDGES,
    params: idParams,
    query: z.strictObject({ q: line(200).optional() }),
    reply: likely,
  }),
};
