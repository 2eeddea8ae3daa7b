// What speaks against a remedy: the agreement's limit, its time to claim and notice, who is bound, and the rules of the state. Shown, never barring.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { CERTAINTIES, type RuleRow } from '../shared/rulePack.ts';
import { paysMoney, type RemedyKind } from './words.ts';

export const CONFLICTS = {
  'over-cap': 'More than the agreement limits',
  'window-closed': 'The time to claim is over',
  'window-doubtful': 'The time to claim may be over',
  'notice-late': 'Reported late by the agreement',
  'not-bound': 'Not bound by the agreement',
  'state-rule': 'A rule of the state speaks to this',
} as const;
export type ConflictCode = keyof typeof CONFLICTS;
/** `needsReason`: whoever goes on says why. */
export type Conflict = { code: ConflictCode; text: string; needsReason: boolean };

/** Days are ISO; `capCents` null = the agreement sets no limit; `noticeDays` null = it asks for none. */
export type ConflictFacts = {
  binding: boolean;
  capCents: number | null;
  windows: { shortUntil: string; longUntil: string } | null;
  noticeDays: number | null;
  discoveredOn: string | null;
  receivedOn: string;
  today: string;
  rows: readonly RuleRow[];
};

const usd = (cents: number): string => (cents / 100).toLocaleString('en-US', { style: 'currency', currency: 'USD' });
const cite = ({ words, citation, certainty }: RuleRow): string => `${words.replace(/\.$/, '')} (${citation}; ${CERTAINTIES[certainty]})`;

/** The days within which a notice clause asks to be told: 'within 14 days of noticing' is 14; null where no number of days is said. */
export const noticeDaysIn = (clause: string): number | null => {
  const found = /within (\d{1,3}) (?:calendar )?days/i.exec(clause);
  return found ? Number(found[1]) : null;
};

const daysBetween = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000);

function ofCap({ binding, capCents, rows }: ConflictFacts, totalCents: number): Conflict[] {
  if (!binding || capCents === null || totalCents <= capCents) return [];
  const barred = rows.find(({ effect }) => effect?.kind === 'cap_barred' || effect?.kind === 'cap_floor');
  const doubt = barred ? ` The state may not let that limit stand: ${cite(barred)}.` : '';
  return [
    {
      code: 'over-cap',
      text: `With what was agreed before this comes to ${usd(totalCents)}; the agreement limits the firm to ${usd(capCents)}.${doubt}`,
      needsReason: true,
    },
  ];
}

function ofTime({ binding, windows, noticeDays, discoveredOn, receivedOn }: ConflictFacts): Conflict[] {
  const found: Conflict[] = [];
  if (windows && receivedOn > windows.longUntil)
    found.push({
      code: 'window-closed',
      text: `By every reading on file the time to claim ended on ${windows.longUntil}.`,
      needsReason: true,
    });
  else if (windows && receivedOn > windows.shortUntil)
    found.push({
      code: 'window-doubtful',
      text: `By the shorter reading the time to claim ended on ${windows.shortUntil}; by the longer one it runs until ${windows.longUntil}.`,
      needsReason: false,
    });
  const late = discoveredOn === null ? 0 : daysBetween(discoveredOn, receivedOn);
  if (binding && noticeDays !== null && late > noticeDays)
    found.push({
      code: 'notice-late',
      text: `The agreement asks to be told within ${noticeDays} days of noticing; it was told after ${late}.`,
      needsReason: false,
    });
  return found;
}

/** Everything that speaks against paying so much in all (cents); nothing speaks against what pays nothing. */
export function conflictsOf(facts: ConflictFacts, remedy: { kind: RemedyKind; totalCents: number }): Conflict[] {
  if (!paysMoney(remedy.kind)) return [];
  const rule =
    remedy.kind === 'independent_contractor' ? facts.rows.find(({ topic }) => topic === 'repairs' || topic === 'interests') : undefined;
  return [
    ...ofCap(facts, remedy.totalCents),
    ...ofTime(facts),
    ...(facts.binding
      ? []
      : [
          {
            code: 'not-bound' as const,
            text: 'Whoever speaks signed no agreement: its limit, its notice and its time to claim do not bind them, and no release was agreed.',
            needsReason: false,
          },
        ]),
    ...(rule ? [{ code: 'state-rule' as const, text: cite(rule), needsReason: false }] : []),
  ];
}

export const SHORTEST_REASON = 10;

/**
 * Going on although something speaks against it is for owner and lead inspector, with a reason; the proposal of somebody else waits for one of
 * them. Answers whether it waits.
 */
export function goOn(conflicts: readonly Conflict[], { judge, reason }: { judge: boolean; reason: string }): Outcome<{ waits: boolean }> {
  const weighty = conflicts.filter(({ needsReason }) => needsReason);
  if (weighty.length === 0 || (judge && reason.trim().length >= SHORTEST_REASON)) return accept({ waits: false });
  return judge ? refuse('conflict-needs-reason', { conflicts: weighty.map(({ text }) => text) }, 'goOn') : accept({ waits: true });
}
