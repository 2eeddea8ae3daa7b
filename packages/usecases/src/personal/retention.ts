// How long records are kept, what is due, and disposing of it after somebody looked.
import {
  ASK_ATTORNEY,
  RECORDS,
  STATE_BOUND,
  mayKeepFor,
  stateYears,
  withoutCovered,
  type DueUnit,
  type RecordKind,
} from '@backsight/domain/personal/retention';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { listRulePacks } from '@backsight/store/firm/rulePacks';
import * as store from '@backsight/store/personal/retention';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act } from '../run.ts';
import { disposeUnit } from './steps/disposeUnit.ts';

const RECENT = 50;

/** The policy with what states ask for, what is due, what would be due but is held, and what went lately. */
export async function readRetention(reader: Reader, now: Date) {
  const { today } = await localDay(reader, now);
  const [rules, packs, states] = [await store.retentionRules(reader), await listRulePacks(reader), await store.statesAtWork(reader)];
  const found = await store.dueOn(reader, today);
  const due = withoutCovered(found);
  const shown = (kind: RecordKind) => found.filter((one) => one.kind === kind && one.held === null).length;
  const asked = stateYears(packs, states);
  return {
    note: ASK_ATTORNEY,
    policy: (Object.keys(RECORDS) as RecordKind[]).map((kind) => {
      const rule = rules.find((one) => one.kind === kind);
      return {
        kind,
        ...RECORDS[kind],
        years: rule?.years ?? RECORDS[kind].years,
        set: rule ? { by: rule.by, at: rule.at.toISOString(), reason: rule.reason } : null,
        states: STATE_BOUND.includes(kind) ? asked : [],
      };
    }),
    due: due.filter(({ held }) => held === null).map(({ held: _, ...row }) => row),
    more: (['job', 'mail', 'callback'] as const).some((kind) => shown(kind) >= store.DUE_AT_ONCE),
    held: due.flatMap(({ held, ...row }) => (held === null ? [] : [{ ...row, held }])),
    disposed: (await store.lastDisposals(reader, RECENT)).map(({ at, ...row }) => ({ ...row, at: at.toISOString() })),
  };
}

type Rule = { id: string; kind: RecordKind; years: number; reason: string };

/** Refusals: retention-too-short, reason-too-short. */
export const setRetention: Act<Rule, { id: string }> = {
  operation: 'personal.set-retention',
  run: async (work, rule) => {
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    const states = stateYears(await listRulePacks(work.tx), await store.statesAtWork(work.tx));
    const may = mayKeepFor({ ...rule, states });
    if (!may.ok) return may;
    await store.saveRetentionRule(work.tx, { ...rule, reason: rule.reason.trim(), actorId: work.actor.id, recordedAt: work.now });
    await work.did('firm', FIRM_THING, { retentionOf: rule.kind, years: rule.years });
    return accept({ id: rule.id });
  },
};

type Ask = { units: readonly DueUnit[] };
export type Disposed = store.Gone & { units: number };

/** Takes out what somebody looked at; all of it or nothing. Refusals: retention-not-over, evidence-held, not-finished, disposed-already. */
export const disposeDue: Act<Ask, Disposed> = {
  operation: 'personal.dispose',
  run: async (work, { units }): Promise<Outcome<Disposed>> => {
    await store.lockDisposal(work.tx);
    const total: Disposed = { rows: 0, words: 0, files: 0, units: 0 };
    for (const unit of withoutCovered(units)) add(total, await disposeUnit(work, unit, 'retention'));
    return accept(total);
  },
};

const add = (to: Disposed, more: store.Gone | null): void => {
  if (more === null) return;
  to.units += 1;
  for (const key of ['rows', 'words', 'files'] as const) to[key] += more[key];
};
