// The gate before a visit: what firm policy wants to have before the pair starts. No law is claimed for it.
import type { Terms } from '../jobs/words.ts';
import { formatUsd } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import { stillToSign } from './signers.ts';

export type GateCode = 'agreement-unsigned' | 'fee-unpaid' | 'acknowledgement';

/** `answer`: what the client said instead of signing. */
export type GateSigner = { name: string; signed: boolean; answer?: { kind: 'declined' | 'wants_paper'; reason: string | null } | null };

export type GateFacts = {
  jobKind: 'inspection' | 'reinspection' | 'callback_visit';
  /** Signers of the newest agreement; null when none was issued. */
  signers: readonly GateSigner[] | null;
  everySigner: boolean;
  terms: Terms;
  feeCents: number;
  invoicedCents: number;
  paidCents: number;
  /** What the invoices ask for ahead. */
  depositCents: number;
  /** The firm's setting: a deposit that is not in closes the gate; else it only warns. */
  depositCloses: boolean;
  /** What members of the pair have not acknowledged yet. */
  unacknowledged: readonly { name: string; procedure: string; number: number }[];
};

/** `warnings` are told and close nothing. */
export type Gate = { missing: GateCode[]; sentences: string[]; warnings: string[] };

/** What those who have not signed said. */
const answers = (signers: readonly GateSigner[]): string[] =>
  signers.flatMap(({ name, signed, answer }) => {
    if (signed || !answer) return [];
    const because = answer.reason ? `: ${answer.reason}` : '';
    return [answer.kind === 'declined' ? `${name} declined to sign${because}.` : `${name} wants to sign on paper${because}.`];
  });

function unsigned(f: GateFacts): string | null {
  if (f.signers === null)
    return f.jobKind === 'callback_visit'
      ? null
      : 'No agreement has been issued for this job. By firm policy it is signed before the visit.';
  const missing = stillToSign(f.signers, f.everySigner);
  return missing.length === 0
    ? null
    : [`Not signed yet by ${missing.join(' and ')}. By firm policy the agreement is signed before the visit.`, ...answers(f.signers)].join(
        ' ',
      );
}

function unpaid(f: GateFacts): string | null {
  const owed = Math.max(f.feeCents, f.invoicedCents);
  if (f.terms === 'due_at_booking' && f.paidCents < owed)
    return `${formatUsd(owed - f.paidCents)} of the fee is open; it is due before the visit.`;
  return f.depositCloses ? depositOpen(f, 'by firm policy it is due before the visit') : null;
}

/** A deposit that is not in, or not all of it. */
function depositOpen(f: GateFacts, then: string): string | null {
  if (f.terms !== 'deposit' || Math.max(f.feeCents, f.invoicedCents) <= 0 || f.paidCents >= Math.max(1, f.depositCents)) return null;
  return f.paidCents > 0
    ? `${formatUsd(f.depositCents - f.paidCents)} of the deposit has not come in; ${then}.`
    : `The deposit has not come in; ${then}.`;
}

/** What is missing, as codes and in sentences for the screen; both lists empty means that the pair may start. */
export function gateOfFacts(f: GateFacts): Gate {
  const found: [GateCode, string][] = [];
  const agreement = unsigned(f);
  if (agreement) found.push(['agreement-unsigned', agreement]);
  const fee = unpaid(f);
  if (fee) found.push(['fee-unpaid', fee]);
  for (const { name, procedure, number } of f.unacknowledged)
    found.push(['acknowledgement', `${name} has not acknowledged revision ${number} of ${procedure}.`]);
  const warning = f.depositCloses ? null : depositOpen(f, 'the visit may begin all the same');
  return {
    missing: [...new Set(found.map(([code]) => code))],
    sentences: found.map(([, sentence]) => sentence),
    warnings: warning ? [warning] : [],
  };
}

export const SHORTEST_REASON = 10;

/** Something must be missing, the visit must lie ahead or be under way, and the reason must say something. */
export function mayOverride(gate: { missing: readonly string[] }, visit: { state: string }, reason: string): Outcome<null> {
  if (!['held', 'booked', 'on_site'].includes(visit.state)) return refuse('visit-not-ahead');
  if (gate.missing.length === 0) return refuse('gate-is-open');
  return reason.trim().length < SHORTEST_REASON ? refuse('reason-too-short', {}, 'reason') : accept(null);
}
