// What if: asked for, prepared from last year's visits, and read.
import type { WhatIfAnswer, WhatIfChange, WhatIfVisits } from '@backsight/domain/schedule/plans';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { weekdayOf } from '@backsight/domain/schedule/wallClock';
import { addDays } from '@backsight/scheduling/time';
import { listTowns } from '@backsight/store/jobs/catalog';
import { listPeople } from '@backsight/store/people';
import type { Reader } from '@backsight/store/database';
import { findPlan, findPlanResult } from '@backsight/store/schedule/plans';
import type { Act, Work } from '../run.ts';
import { planHead } from './steps/planHead.ts';
import { writePlan } from './steps/writePlan.ts';

export type WhatIfInput = { id: string; from: string; weeks: number; change: WhatIfChange; visits: WhatIfVisits };

/** `from` is a day of the first week; see `WhatIfVisits` for what is planned. */
export const askWhatIf: Act<WhatIfInput, { id: string }> = { operation: 'schedule.ask-what-if', run: ask };

async function ask(work: Work, { id, from, weeks, change, visits }: WhatIfInput): Promise<Outcome<{ id: string }>> {
  const known = await mayAsk(work, change);
  if (!known.ok) return known;
  const monday = addDays(from, 1 - weekdayOf(from));
  return writePlan(work, { id, kind: 'what_if', from: monday, to: addDays(monday, weeks * 7 - 1), ask: { change, visits } });
}

async function mayAsk(work: Work, change: WhatIfChange): Promise<Outcome<null>> {
  if (change.kind === 'speed') return accept(null);
  const personId = change.kind === 'base' ? change.personId : change.likeId;
  if (!(await listPeople(work.tx)).some(({ id, roles }) => id === personId && roles.includes('inspector')))
    return refuse('not-found', { thing: 'inspector' }, 'change');
  const { town } = change;
  const towns = (await listTowns(work.tx)).map(({ name }) => name);
  return town === null || towns.includes(town) ? accept(null) : refuse('town-not-known', { town }, 'change');
}

export async function readWhatIf(reader: Reader, id: string) {
  const plan = await findPlan(reader, id);
  if (!plan || plan.kind !== 'what_if') return refuse('not-found', { thing: 'what-if' });
  const { change } = plan.ask as { change: WhatIfChange };
  const names = Object.fromEntries((await listPeople(reader)).map((person) => [person.id, person.name]));
  return accept({ ...planHead(plan), change, inWords: inWords(change, names), answer: await findPlanResult<WhatIfAnswer>(reader, id) });
}

function inWords(change: WhatIfChange, names: Record<string, string>): string {
  if (change.kind === 'speed') return `Driving at ${change.percent} % of today's speeds`;
  if (change.kind === 'base') return `${names[change.personId] ?? 'Somebody'} based in ${change.town}`;
  return `One more like ${names[change.likeId] ?? 'somebody'}${change.town === null ? '' : `, based in ${change.town}`}`;
}
