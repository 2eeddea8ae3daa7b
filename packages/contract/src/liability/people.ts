// People and pairs against what their houses led to expect; everybody else sees only the own figure.
import { z } from 'zod';
import { route } from '../route.ts';
import { cannot, inOrder, JUDGES, LENGTH_MESSAGE, monthSpan, ORDER_MESSAGE, shortEnough } from './frequency.ts';

const limits = z.strictObject({ lower: z.number(), upper: z.number() });
/** Where fewer callbacks are expected than may be judged by, nothing is said but the jobs. */
const tooFew = z.strictObject({ unit: z.string(), name: z.string(), jobs: z.int(), state: z.literal('too_few') });
const placed = z.strictObject({
  unit: z.string(),
  name: z.string(),
  jobs: z.int(),
  state: z.literal('shown'),
  observed: z.int(),
  expected: z.number(),
  /** Observed over expected. */
  ratio: z.number(),
  limits95: limits,
  limits998: limits,
  position: z.enum(['within', 'beyond_95', 'beyond_998']),
  side: z.enum(['above', 'below']).nullable(),
  sentence: z.string(),
});
export type PlacedUnit = z.output<typeof placed>;
const unit = z.union([placed, tooFew]);
export type FunnelUnit = z.output<typeof unit>;
const band = z.strictObject({ size: z.number(), limits95: limits, limits998: limits });
export type FunnelBand = z.output<typeof band>;
const funnel = z.strictObject({
  units: z.array(unit),
  /** The drawing: limits over expected counts; empty where nobody can be shown. */
  bands: z.array(band),
  /** How the limits were made, or why nobody can be shown. */
  sentence: z.string(),
});
export type PeopleFunnel = z.output<typeof funnel>;

const span = { from: z.string(), until: z.string(), young: z.string(), compared: z.string() };
const people = z.strictObject({ ...span, pairs: funnel, people: funnel });
export type PeopleFigures = z.output<typeof people>;
const own = z.strictObject({ ...span, own: z.union([placed, tooFew, cannot]), bands: z.array(band), sentence: z.string() });
export type OwnFigures = z.output<typeof own>;

const query = z.strictObject(monthSpan).refine(inOrder, ORDER_MESSAGE).refine(shortEnough, LENGTH_MESSAGE);

export const peopleFigureRoutes = {
  page: route({
    method: 'GET',
    path: '/api/liability/people',
    area: 'liability',
    summary: 'Pairs and persons in a funnel against what their houses led to expect, by name; nobody below five expected callbacks',
    who: JUDGES,
    query,
    reply: people,
  }),
  own: route({
    method: 'GET',
    path: '/api/liability/people/own',
    area: 'liability',
    summary: 'The own figure in the funnel, and nobody else’s',
    who: ['inspector', 'lead_inspector'],
    query,
    reply: own,
  }),
};
