// What every past job stands on: the firm's fees, rules, text, towns and procedure book, from the tables in memory or from the database.
import type { FrozenRevision } from '@backsight/domain/sitework/package';
import type { Step } from '@backsight/domain/procedures/step';
import type { Reader } from '@backsight/store/database';
import { STARTER } from '../../starter/starter.ts';
import type { DemoCalendar } from '../calendar.ts';
import { all, by, one, type Row, type Tables } from '../memory/tables.ts';
import type { Firm } from './jobRows.ts';

export type Book = FrozenRevision & { position: number; from: Date; until: Date | null };
export type Ground = { firm: Firm; books: readonly Book[] };

type Parts = { scheduleId: string; rulesId: string; textId: string; consent: string; towns: readonly { name: string; zip: string }[] };

const groundOf = (calendar: DemoCalendar, { scheduleId, rulesId, textId, consent, towns }: Parts, books: Book[]): Ground => ({
  firm: {
    ...{ calendar, scheduleId, rulesId, schedule: STARTER.feeSchedule, text: { id: textId, consent } },
    zipOf: (town) => towns.find(({ name }) => name === town)?.zip ?? '',
  },
  books: books.sort((a, b) => a.position - b.position),
});

export function groundInMemory(tables: Tables, calendar: DemoCalendar): Ground {
  const text = all(tables, 'agreementText').find(({ kind, state }) => kind === 'inspection' && state === 'approved')!;
  const [scheduleId, rulesId] = [all(tables, 'feeSchedule')[0]!.id, all(tables, 'bookingRules')[0]!.id];
  const towns = all(tables, 'town') as Row[] as { name: string; zip: string }[];
  return groundOf(calendar, { scheduleId, rulesId, textId: text.id, consent: text.consentText, towns }, booksInMemory(tables));
}

const booksInMemory = (tables: Tables): Book[] =>
  all(tables, 'inForcePeriod').map(({ revisionId, fromAt, untilAt }) => {
    const revision = one(tables, 'procedureRevision', revisionId)!;
    const procedure = one(tables, 'procedure', revision.procedureId)!;
    const steps = by(tables, 'revisionStep', 'revisionId', revisionId).map(({ body }) => body as Step);
    const { key: procedureKey, title, system, position } = procedure;
    return { procedureKey, title, system, revisionId, number: revision.number, steps, position, from: fromAt, until: untilAt };
  });

/** The same of a demo firm in the database. */
export async function groundInDatabase(reader: Reader, calendar: DemoCalendar): Promise<Ground> {
  const [parts] = await reader.rows<Parts>(
    `SELECT (SELECT id::text FROM fee_schedule ORDER BY recorded_at, id LIMIT 1) AS "scheduleId",
       (SELECT id::text FROM booking_rules ORDER BY recorded_at, id LIMIT 1) AS "rulesId", t.id::text AS "textId", t.consent_text AS consent,
       (SELECT jsonb_agg(jsonb_build_object('name', name, 'zip', zip)) FROM town) AS towns
     FROM agreement_text t WHERE t.kind = 'inspection' AND t.in_force_from IS NOT NULL ORDER BY t.in_force_from LIMIT 1`,
  );
  const books = await reader.rows<Book>(
    `SELECT p.key AS "procedureKey", p.title, p.system, p.position, r.id::text AS "revisionId", r.number, f.from_at AS "from", f.until_at AS until,
       coalesce((SELECT jsonb_agg(s.body ORDER BY s.position) FROM revision_step s WHERE s.revision_id = r.id), '[]'::jsonb) AS steps
     FROM in_force_period f JOIN procedure_revision r ON r.id = f.revision_id JOIN procedure p ON p.id = f.procedure_id`,
  );
  return groundOf(calendar, parts!, books);
}

export const inForceAt = (books: readonly Book[], at: Date): Book[] =>
  books.filter(({ from, until }) => from <= at && (until === null || at < until));
