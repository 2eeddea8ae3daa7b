// What misses before the seal as far as this phone knows: what the service had, and what was written here since.
import type { MemberRecord } from '@backsight/contract/sitework';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { leftBehind, missingEntries } from '@backsight/domain/sitework/seal';
import { entriesByPlace } from './recordModel.ts';
import type { Waiting } from './useRecord.ts';

type Missing = MemberRecord['missing'][number];
const NOTHING = { stepKey: null, itemId: null, person: null, ref: null };

/** What was kept here of the end of the visit; the service has not said no to it. */
export const keptEnd = (waiting: readonly Waiting[], does: 'end' | 'seal'): Waiting | undefined =>
  waiting.find(({ what, state }) => what.kind === 'act' && what.does === does && state !== 'refused');

export function missingHere(record: MemberRecord, waiting: readonly Waiting[], acts: readonly KnownAct[]): Missing[] {
  const pair = record.visit.pair.map(({ personId }) => personId);
  const partner = pair.find((person) => person !== record.me) ?? record.me;
  const entries = [
    ...[...entriesByPlace(record, waiting).values()].flat(),
    ...record.withheld.map((place) => ({ ...place, observedBy: partner })),
  ];
  const heard = new Set(entries.map(({ observedBy }) => observedBy));
  const ended = record.endedAs ?? (keptEnd(waiting, 'end') ? 'complete' : null);
  const whole = ended === 'complete';
  const settled = new Set(acts.flatMap(({ act }) => (act.do === 'settled' ? [`${act.stepKey}@${act.item}`] : [])));
  return [
    ...(ended === null ? [{ ...NOTHING, kind: 'ending' as const }] : []),
    ...(whole ? pair.filter((person) => !heard.has(person)).map((person) => ({ ...NOTHING, kind: 'member' as const, person })) : []),
    ...missingEntries({ places: record.steps, entries, pair, endedAs: ended }).map((entry) => ({
      ...NOTHING,
      kind: 'entry' as const,
      ...entry,
    })),
    ...record.missing.filter(
      ({ kind, stepKey, itemId }) => kind === 'photo' || (kind === 'disagreement' && !settled.has(`${stepKey}@${itemId}`)),
    ),
    ...leftBehind(acts).map((left) => ({ ...NOTHING, ...left }) as Missing),
    ...(whole
      ? pair
          .filter((person) => !hasSigned(record, waiting, acts, person))
          .map((person) => ({ ...NOTHING, kind: 'sign_off' as const, person }))
      : []),
  ];
}

/** The own hand's last word must be the sign-off; of the other phone the service knows. */
function hasSigned(record: MemberRecord, waiting: readonly Waiting[], acts: readonly KnownAct[], person: string): boolean {
  const stale = record.missing.some(({ kind, person: who }) => kind === 'sign_off' && who === person);
  const there = acts.some(({ act, by }) => act.do === 'signed_off' && by === person);
  if (person !== record.me) return there && !stale;
  const last = waiting.findLast(({ what, state }) => what.kind === 'entry' && state !== 'refused');
  return last?.what.kind === 'entry' ? last.what.entry.act?.do === 'signed_off' : there && !stale;
}
