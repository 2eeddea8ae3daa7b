// Accepts groups of moves of a finished plan: all, some or none. Groups that no longer fit are refused by name, the others are made.
import { chosenGroups, variantOf, type KeptGroup, type KeptMove } from '@backsight/domain/schedule/plans';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { daysFrom } from '@backsight/domain/schedule/wallClock';
import { daysBetween } from '@backsight/scheduling/time';
import { findCatalog, type OfficeRow } from '@backsight/store/jobs/catalog';
import { findClosure } from '@backsight/store/schedule/closures';
import { addAccepted, findPlanResult, lockPlan, type PlanRow } from '@backsight/store/schedule/plans';
import { tellOfMove } from '../jobs/steps/tellOfMove.ts';
import type { Act, Work } from '../run.ts';
import { addCalls } from './steps/addCalls.ts';
import { weatherSaid } from './steps/callWords.ts';
import { fittingGroups, type RefusedGroup } from './steps/fittingGroups.ts';
import { loadPlanFacts } from './steps/planInput.ts';
import { lapseHolds } from './steps/reserveStart.ts';
import { tellCrews } from './steps/tellCrews.ts';
import { lockMoves, writeMoves, type Written } from './steps/writeMoves.ts';

export type AcceptInput = { id: string; groups: string[]; publicUrl: string };
export type Accepted = { id: string; accepted: string[]; refused: RefusedGroup[]; calls: number };

export const acceptPlan: Act<AcceptInput, Accepted> = { operation: 'schedule.accept-plan', run: acceptGroups };

async function acceptGroups(work: Work, input: AcceptInput): Promise<Outcome<Accepted>> {
  const plan = await lockPlan(work.tx, input.id);
  if (!plan) return refuse('not-found', { thing: 'plan' });
  const chosen = await mayAccept(work, plan, input.groups);
  if (!chosen.ok) return chosen;
  const catalog = await findCatalog(work.tx, work.now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const { fitting, refused } = await checked(work, catalog.office, chosen.value);
  if (fitting.length === 0) return refuse('plan-outdated', { sentences: refused.flatMap(({ sentences }) => sentences).join(' ') });
  const written = await writeMoves(work, movesOf(fitting), { planId: plan.id, zone: catalog.office.zone });
  if (!written.ok) return written;
  const keys = fitting.map(({ key }) => key);
  await addAccepted(work.tx, plan.id, keys);
  await tell(work, plan, written.value, { keys, zone: catalog.office.zone, publicUrl: input.publicUrl });
  const calls = await addCalls(work, plan, written.value);
  await work.did('plan', plan.id, { accepted: keys, refused: refused.map(({ key }) => key), visits: written.value.length, calls });
  return accept({ id: plan.id, accepted: keys, refused, calls });
}

const movesOf = (groups: readonly KeptGroup[]): KeptMove[] => groups.flatMap(({ moves }) => moves);

async function mayAccept(work: Work, plan: PlanRow, keys: readonly string[]): Promise<Outcome<KeptGroup[]>> {
  if (plan.state !== 'finished' || plan.kind === 'what_if') return refuse('plan-not-finished');
  const answer = await findPlanResult(work.tx, plan.id);
  const groups = answer ? chosenGroups(answer, keys) : null;
  if (groups === null) return refuse('plan-groups', {}, 'groups');
  const before = plan.accepted[0];
  if (before !== undefined && variantOf(before) !== variantOf(keys[0]!)) return refuse('plan-other-variant');
  return keys.some((key) => plan.accepted.includes(key)) ? refuse('plan-accepted') : accept(groups);
}

/** Locks what the groups touch, then looks at the days as they are now. */
async function checked(work: Work, office: OfficeRow, groups: readonly KeptGroup[]) {
  const days = groups
    .flatMap(({ moves }) => moves.flatMap(({ before, after }) => [before, after].flatMap((spot) => spot?.day ?? [])))
    .sort();
  const span = daysFrom(days[0]!, daysBetween(days[0]!, days.at(-1)!) + 1);
  const seen = await loadPlanFacts(work.tx, { office, days: span, now: work.now });
  await lockMoves(work, movesOf(groups), new Map(seen.visits.map(({ id, kit }) => [id, kit])));
  await lapseHolds(work);
  return fittingGroups(await loadPlanFacts(work.tx, { office, days: span, now: work.now }), groups);
}

/** The inspectors once; clients only of those visits whose start is another one now. */
async function tell(
  work: Work,
  plan: PlanRow,
  written: readonly Written[],
  ask: { keys: readonly string[]; zone: string; publicUrl: string },
): Promise<void> {
  await tellCrews(work, written, { planId: plan.id, key: ask.keys.join('+'), zone: ask.zone });
  const why = await whyMoved(work, plan);
  for (const { was, to } of written)
    if (to && to.startsAt.getTime() !== was.startsAt.getTime()) await tellOfMove(work, was, to, ask.publicUrl, { fee: why, crew: false });
}

/** The weather is named to the clients; why somebody is out is not. */
async function whyMoved(work: Work, plan: PlanRow): Promise<string | null> {
  if (plan.kind !== 'weather') return null;
  const closure = await findClosure(work.tx, (plan.ask as { closureId: string }).closureId);
  return closure && weatherSaid(closure.reason);
}
