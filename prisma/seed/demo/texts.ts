// A draft of the agreement text that waits for a second person.
import { textInForce } from '@backsight/store/agreements/texts';
import type { Tx } from '@backsight/store/database';
import { shiftDay } from '@backsight/domain/shared/calendar';
import { AGREEMENT_TEXTS } from '../starter/agreement.ts';
import type { Prisma } from '@backsight/store/generated/client';
import type { DemoCalendar } from './calendar.ts';
import { PEOPLE } from './people.ts';

const json = (value: unknown) => value as Prisma.InputJsonValue;

const REWORDED: Record<string, string> = {
  access:
    'The client arranges that the property can be entered, that attic hatch, electrical panel and crawl space can be reached, and that water, electricity and fuel are on. What is found switched off stays off and is reported; looking at it later is a visit of its own with its own fee.',
  notice_and_look:
    'Please tell the firm in writing within 14 days of noticing it, and let the firm look before it is repaired. The firm comes within 5 working days. Where repair is needed sooner to prevent danger or more damage, photograph it first and keep the parts that were taken out. Nothing in this section shortens a time that the law gives.',
};

/** Dolores wrote it some days ago, after a client had a stoop replaced before anybody could look. */
export async function addTextDraft(tx: Tx, calendar: DemoCalendar, newId: (at: Date) => string): Promise<void> {
  const at = calendar.at(shiftDay(calendar.today, -4), 15);
  const { kind, title, consentText, limits, clauses, ...from } = (await textInForce(tx, 'inspection', at))!;
  await tx.db.agreementText.create({
    data: {
      ...{ id: newId(at), number: AGREEMENT_TEXTS.length + 1, kind, state: 'draft', title, consentText, limits: json(limits) },
      clauses: json(clauses.map((clause) => ({ ...clause, body: REWORDED[clause.key] ?? clause.body }))),
      reason: 'Say when we come to look, and ask to keep the parts: twice a repair was done before anybody saw it.',
      ...{ basedOnId: from.id, authorId: PEOPLE.office.id, recordedAt: at, inForceFrom: null, approvedAt: null },
    },
  });
}
