// Rules of states: rows with citation and certainty, by version; and which states the firm takes up.
import { z } from 'zod';
import { CERTAINTIES, TOPICS, type Certainty, type Topic } from '@backsight/domain/shared/rulePack';
import { day, id, route } from './route.ts';

const keysOf = <K extends string>(from: Record<K, string>) => z.enum(Object.keys(from) as [K, ...K[]]);
const state = z.string().regex(/^US-[A-Z]{2}$/, 'A state is named like US-WI.');

const row = z.strictObject({
  key: z.string(),
  topic: keysOf<Topic>(TOPICS),
  topicWords: z.string(),
  words: z.string(),
  citation: z.string(),
  certainty: keysOf<Certainty>(CERTAINTIES),
  certaintyWords: z.string(),
  fromDay: day.nullable(),
  untilDay: day.nullable(),
  holds: z.boolean(),
});
export type RuleRowShown = z.output<typeof row>;
const pack = z.strictObject({ id, jurisdiction: z.string(), name: z.string(), versionDay: day, inForce: z.boolean(), rows: z.array(row) });
export type RulePackShown = z.output<typeof pack>;

export const rulePacksRoutes = {
  packs: route({
    method: 'GET',
    path: '/api/rule-packs',
    area: 'firm',
    summary: 'Rules of states, with every version',
    who: ['owner', 'office_manager', 'lead_inspector'],
    reply: z.strictObject({ states: z.array(z.string()), packs: z.array(pack) }),
  }),
  choose: route({
    method: 'PUT',
    path: '/api/firm/states',
    area: 'firm',
    summary: 'Choose the states whose rules texts are held against',
    who: ['owner'],
    body: z.strictObject({ states: z.array(state).min(1).max(60) }),
    reply: z.strictObject({ states: z.array(z.string()) }),
  }),
};
