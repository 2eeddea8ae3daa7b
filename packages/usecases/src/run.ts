// The runner: begin, idempotency, commit or roll back, retry, the audit row. Every act of the service passes through here.
import { createHash } from 'node:crypto';
import type { Outcome, Refusal } from '@backsight/domain/shared/outcome';
import { refuse } from '@backsight/domain/shared/outcome';
import { refusals, type RefusalCode } from '@backsight/domain/refusals';
import type { Role } from '@backsight/domain/people/roles';
import { addAuditRow } from '@backsight/store/audit';
import { brokenRule, isTransient } from '@backsight/store/constraint';
import { execute, type Database, type Reader, type Tx } from '@backsight/store/database';
import { claimKey, storeReply } from '@backsight/store/idempotency';
import { queueMail, type NewMail } from '@backsight/store/mail';

export { outageOf, type Outage } from '@backsight/store/outage';

/** Who acts: a person of the firm, a client by a private link, or the service itself by the clock. */
export type Actor =
  | { kind: 'person'; id: string; name: string; roles: readonly Role[] }
  | { kind: 'client'; id: string }
  | { kind: 'service' };

export type Details = Record<string, string | number | boolean | null | readonly string[]>;

/** What an act may use. All reads and writes go through `tx`; instants and ids come from here, never from elsewhere. */
export type Work = {
  tx: Tx;
  now: Date;
  newId: () => string;
  actor: Actor;
  /** Where the service is reached, without a slash at the end; for links in mail. */
  publicUrl: string;
  /** Version of the thing that the caller looked at, where the caller said so: an act on a newer one is refused. */
  seen?: number;
  /** Writes the audit row: codes, amounts, ids and times only; never secrets, personal words or free text. */
  did: (thingKind: string, thingId: string, details?: Details) => Promise<void>;
  /** Queues a mail; `messageKey` makes it unique for ever. */
  mail: (mail: Omit<NewMail, 'id' | 'at'>) => Promise<void>;
};

/** One thing that can be done. `run` loads facts, lets the domain decide, and saves. Its reply is plain JSON (instants as ISO text). */
export type Act<I, O> = {
  operation: string;
  keepKeyForEver?: boolean;
  /** After how many seconds it is given up, where that is more than the usual 30. */
  seconds?: number;
  run: (work: Work, input: I) => Promise<Outcome<O>>;
};

export type Runner = {
  run: <I, O>(act: Act<I, O>, input: I, by: By) => Promise<Outcome<O>>;
  /** What an act would answer now: it runs whole, with every constraint checked, and all of it is rolled back. */
  rehearse: <I, O>(act: Act<I, O>, input: I, by: Pick<By, 'actor'>) => Promise<Outcome<O>>;
};

/** Who acts, under which key, and which version of the thing they looked at. */
export type By = { actor: Actor; key?: string; seen?: number };

/** Lets an answer leave the transaction, so that everything is rolled back: a refusal, or whatever a rehearsal came to. */
class RolledBack extends Error {
  outcome: Outcome<unknown>;
  constructor(outcome: Outcome<unknown>) {
    super('rolled back');
    this.outcome = outcome;
  }
}

export type RunnerParts = { database: Database; clock: () => Date; newId: () => string; publicUrl?: string };

const TRIES = 5;
/** Whoever asks waits no longer for a turn: later he is told that the database does not answer. */
const LONGEST_MS = 40_000;

/** Makes the runner of a service. `clock` and `newId` are the only sources of time and ids. */
export function createRunner(parts: RunnerParts): Runner {
  const answer = async <O>(once: (tx: Tx) => Promise<Outcome<O>>, seconds: number | undefined): Promise<Outcome<O>> => {
    const began = performance.now();
    for (let attempt = 1; ; attempt++) {
      try {
        return await parts.database.transaction(once, seconds);
      } catch (error) {
        if (error instanceof RolledBack) return error.outcome as Outcome<O>;
        if (isTransient(error) && attempt < TRIES && performance.now() - began < LONGEST_MS) continue;
        const rule = brokenRule(error);
        if (rule) return refusalOfRule(rule);
        throw error;
      }
    }
  };
  return {
    run: (act, input, by) => answer((tx) => runOnce(parts, tx, act, input, by), act.seconds),
    rehearse: (act, input, by) => answer((tx) => rehearseOnce(parts, tx, act, input, by), act.seconds),
  };
}

/** Nothing is committed, so what the database looks at only then is looked at now. */
async function rehearseOnce<I, O>(parts: RunnerParts, tx: Tx, act: Act<I, O>, input: I, by: By): Promise<Outcome<O>> {
  const { work } = workOf(parts, tx, by, act.operation, parts.clock());
  const outcome = await act.run(work, input);
  if (outcome.ok) await execute(tx, 'SET CONSTRAINTS ALL IMMEDIATE');
  throw new RolledBack(outcome);
}

async function runOnce<I, O>(parts: RunnerParts, tx: Tx, act: Act<I, O>, input: I, by: By): Promise<Outcome<O>> {
  const now = parts.clock();
  const actorKey = by.actor.kind === 'service' ? 'service' : `${by.actor.kind}:${by.actor.id}`;
  if (by.key !== undefined) {
    const inputHash = hashOf(input);
    const known = await claimKey(tx, {
      actor: actorKey,
      operation: act.operation,
      key: by.key,
      inputHash,
      forEver: act.keepKeyForEver ?? false,
      at: now,
    });
    if (known) return known.inputHash === inputHash ? (known.reply as Outcome<O>) : refuse('key-reused');
  }
  const { work, rows } = workOf(parts, tx, by, act.operation, now);
  const outcome = await act.run(work, input);
  if (!outcome.ok) throw new RolledBack(outcome);
  if (rows() === 0) throw new Error(`${act.operation} left no audit row`);
  if (by.key !== undefined) await storeReply(tx, actorKey, act.operation, by.key, outcome);
  return outcome;
}

function workOf(parts: RunnerParts, tx: Tx, { actor, seen }: By, operation: string, now: Date): { work: Work; rows: () => number } {
  let count = 0;
  const { newId, publicUrl = '' } = parts;
  const did: Work['did'] = async (thingKind, thingId, details = {}) => {
    count += 1;
    const actorId = actor.kind === 'service' ? null : actor.id;
    await addAuditRow(tx, { id: newId(), actorKind: actor.kind, actorId, operation, thingKind, thingId, details, at: now });
  };
  const mail: Work['mail'] = (m) => queueMail(tx, { ...m, id: newId(), at: now });
  return { work: { tx, now, newId, actor, publicUrl, did, mail, ...(seen === undefined ? {} : { seen }) }, rows: () => count };
}

/** Digest of an input, the same whatever the order of its keys. */
export const hashOf = (input: unknown): string =>
  createHash('sha256')
    .update(JSON.stringify(sorted(input)) ?? '')
    .digest('hex');

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object' || value instanceof Date) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([k, v]) => [k, sorted(v)]),
  );
}

/** The refusal that a constraint stands for: its own line of the catalogue, else a general one that names the rule. */
function refusalOfRule(rule: string): Refusal {
  const code = RULE_CODES[rule] ?? rule.replaceAll('_', '-');
  if (code in refusals) return refuse(code as RefusalCode);
  if (rule === 'sql_23505' || rule.endsWith('_key') || rule.endsWith('_pkey')) return refuse('already-exists');
  if (rule === 'sql_23503' || rule.endsWith('_fkey')) return refuse('still-in-use');
  return refuse('rule-of-the-database', { rule: rule.replaceAll('_', ' ') });
}

/** Constraints whose name is not the code itself. */
const RULE_CODES: Record<string, RefusalCode> = {
  person_email_key: 'email-taken',
  one_time_code_once: 'code-wrong',
  recovery_code_once: 'code-wrong',
  password_link_once: 'password-link-spent',
  firm_pkey: 'already-set-up',
  insurance_policy_number_key: 'policy-number-known',
  license_kind_number_from_day_key: 'license-number-known',
  person_qualification_person_id_kind_from_day_key: 'qualification-known',
  person_bar_person_id_property_id_key: 'bar-known',
  person_party_bar_person_id_party_id_key: 'bar-known',
  outlook_name_key: 'outlook-name-taken',
  kept_search_person_id_list_name_key: 'search-name-taken',
  kit_item_serial_key: 'kit-serial-known',
  procedure_key_key: 'procedure-key-taken',
  disposal_kind_thing_id_key: 'disposed-already',
  job_file_review_pkey: 'file-reviewed',
};

/** A read: a function of the reader, called outside any transaction. */
export type Read<I, O> = (reader: Reader, input: I) => Promise<O>;
