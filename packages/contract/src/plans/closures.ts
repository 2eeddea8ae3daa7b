// Times closed for weather, and the plans that move their visits.
import { z } from 'zod';
import { OFFICE_ROLES } from '../jobs.ts';
import { someWeights } from '../plans.ts';
import { day, id, idParams, instant, line, made, route, wholeMinute } from '../route.ts';

const text = z.string();
const closure = z.strictObject({
  id,
  startsAt: instant,
  endsAt: instant,
  outdoorOnly: z.boolean(),
  towns: z.array(text),
  reason: text,
  recordedBy: text,
  visits: z.array(z.strictObject({ id, jobId: id, label: text, startsAt: instant, objectionOn: day.nullable() })),
});
export type Closure = z.output<typeof closure>;

const area = 'schedule';
export const closureRoutes = {
  closures: route({
    method: 'GET',
    path: '/api/weather-closures',
    area,
    summary: 'Times closed for weather that are not over, with the booked visits that each hits',
    who: OFFICE_ROLES,
    reply: z.strictObject({ items: z.array(closure), towns: z.array(text), mail: text }),
  }),
  close: route({
    method: 'POST',
    path: '/api/weather-closures',
    area,
    summary: 'Close a part of the county, or outdoor work, for weather: nothing is booked into it any more',
    who: OFFICE_ROLES,
    creates: true,
    body: z.strictObject({
      id,
      startsAt: wholeMinute,
      endsAt: wholeMinute,
      outdoorOnly: z.boolean(),
      towns: z.array(line(100)).max(100),
      reason: line(120),
    }),
    reply: made,
  }),
  lift: route({
    method: 'PUT',
    path: '/api/weather-closures/:id/end',
    area,
    summary: 'Lift a closed time',
    who: OFFICE_ROLES,
    params: idParams,
    reply: made,
  }),
  askWeather: route({
    method: 'POST',
    path: '/api/weather-closures/:id/plans',
    area,
    summary: 'Ask for three plans that move the visits of a closed time together, that day or the days after',
    who: OFFICE_ROLES,
    creates: true,
    params: idParams,
    body: z.strictObject({ id, weights: someWeights.default({}) }),
    reply: made,
  }),
};
