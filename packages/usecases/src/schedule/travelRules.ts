// What the office says about drives by hand: minutes between two areas, or an area in which every drive takes longer.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { greatCircleKm } from '@backsight/scheduling/travel';
import { endTravelRule, saveTravelRule } from '@backsight/store/schedule/travel';
import type { Act, Work } from '../run.ts';
import { isNowhere } from './steps/places.ts';

export type AreaInput = { name: string; lat: number; lon: number; radiusKm: number };
export type RuleInput = { id: string; reason: string } & (
  | { kind: 'between'; a: AreaInput; b: AreaInput; minutes: number }
  | { kind: 'within'; a: AreaInput; percent: number }
);

export const addTravelRule: Act<RuleInput, { id: string }> = { operation: 'schedule.add-travel-rule', run: add };

async function add(work: Work, rule: RuleInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const { a } = rule;
  const b = rule.kind === 'between' ? rule.b : null;
  if (isNowhere(a)) return refuse('place-zero', {}, 'a.lat');
  if (b && isNowhere(b)) return refuse('place-zero', {}, 'b.lat');
  if (b && greatCircleKm(a, b) < 0.05) return refuse('travel-rule-one-place', {}, 'b.name');
  const minutes = rule.kind === 'between' ? rule.minutes : null;
  const percent = rule.kind === 'within' ? rule.percent : null;
  await saveTravelRule(work.tx, {
    id: rule.id,
    kind: rule.kind,
    aName: a.name,
    aLat: a.lat,
    aLon: a.lon,
    aRadiusKm: a.radiusKm,
    bName: b?.name ?? null,
    bLat: b?.lat ?? null,
    bLon: b?.lon ?? null,
    bRadiusKm: b?.radiusKm ?? null,
    minutes,
    percent,
    reason: rule.reason,
    recordedBy: work.actor.id,
    recordedAt: work.now,
  });
  await work.did('travel-rule', rule.id, { kind: rule.kind, minutes, percent });
  return accept({ id: rule.id });
}

export const endRule: Act<{ id: string }, { id: string }> = { operation: 'schedule.end-travel-rule', run: end };

async function end(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  if (!(await endTravelRule(work.tx, id, work.now))) return refuse('travel-rule-ended');
  await work.did('travel-rule', id, { ended: true });
  return accept({ id });
}
