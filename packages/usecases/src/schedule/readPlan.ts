// A plan as it is shown: what was asked, what came out, whether the days changed since, and whom to call.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { PlanKind } from '@backsight/domain/schedule/plans';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import { sayDay, sayTime } from '@backsight/scheduling/time';
import { PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanWeights } from '@backsight/scheduling/plan/model';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { listPeople } from '@backsight/store/people';
import { callsOf, findPlan, findPlanResult, listPlans, type CallRow, type PlanRow } from '@backsight/store/schedule/plans';
import { factsOf } from './preparePlan.ts';
import { callWords } from './steps/callWords.ts';
import { planHead } from './steps/planHead.ts';
import { fingerprintOf } from './steps/planTask.ts';

/** The newest plans first. */
export async function readPlans(reader: Reader, kinds: readonly PlanKind[]) {
  return { items: (await listPlans(reader, kinds, 20)).map(planHead), weights: PLAN_WEIGHTS };
}

export async function readPlan(reader: Reader, now: Date, id: string) {
  const plan = await findPlan(reader, id);
  if (!plan || plan.kind === 'what_if') return refuse('not-found', { thing: 'plan' });
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const answer = plan.state === 'finished' ? await findPlanResult(reader, id) : null; // it may have ended since the line above
  const names = Object.fromEntries((await listPeople(reader)).map((person) => [person.id, person.name]));
  const calls = (await callsOf(reader, id)).map((call) => callJson(call, plan, catalog));
  return accept({
    ...planHead(plan),
    weights: weightsOf(plan),
    changedSince: answer !== null && plan.accepted.length === 0 && (await changedSince(reader, now, plan)),
    outName: outName(plan, names),
    names,
    answer,
    calls,
  });
}

const weightsOf = (plan: PlanRow): PlanWeights => ({ ...PLAN_WEIGHTS, ...(plan.ask as { weights?: Partial<PlanWeights> }).weights });
const outName = (plan: PlanRow, names: Record<string, string>): string | null =>
  names[(plan.ask as { personId?: string }).personId ?? ''] ?? null;

async function changedSince(reader: Reader, now: Date, plan: PlanRow): Promise<boolean> {
  const facts: Outcome<Parameters<typeof fingerprintOf>[0]> = await factsOf(reader, now, plan);
  return facts.ok && fingerprintOf(facts.value) !== plan.fingerprint;
}

type Firm = { firm: { name: string; phone: string }; office: { zone: string } };

function callJson(call: CallRow, plan: PlanRow, { firm, office }: Firm) {
  const say = (at: Date): string => {
    const { day, minute } = wallTime(at, office.zone);
    return `${sayDay(day)} at ${sayTime(minute)}`;
  };
  const { id, visitId, jobId, jobNumber, because, address, town, objectionOn, clients } = call;
  return {
    id,
    visitId,
    jobId,
    jobNumber,
    because,
    address: `${address}, ${town}`,
    objectionOn,
    clients,
    wasAt: call.wasAt.toISOString(),
    willBeAt: call.willBeAt?.toISOString() ?? null,
    doneAt: call.doneAt?.toISOString() ?? null,
    words: callWords({
      kind: plan.kind,
      client: clients[0]?.name ?? null,
      firm: firm.name,
      address,
      before: say(call.wasAt),
      after: call.willBeAt ? say(call.willBeAt) : null,
      deadline: objectionOn ? sayDay(objectionOn) : null,
    }),
  };
}
