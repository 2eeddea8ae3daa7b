// Mails about absences: to those who decide, and to the person.
import { findPerson, listPeople, type PersonRow } from '@backsight/store/people';
import type { AbsenceRow } from '@backsight/store/people/times';
import type { Work } from '../../run.ts';

const LINES = {
  asks: { subject: 'asks to be away', body: 'asks to be away. Nothing is blocked until somebody approves it on the page of this person.' },
  withdraws: { subject: 'takes back an absence', body: 'takes back an absence. Those days can be booked again.' },
} as const;

/** Who decides first: the office, in a firm without one the owners. */
export async function deciders(work: Work): Promise<PersonRow[]> {
  const here = (await listPeople(work.tx)).filter(({ endedOn }) => endedOn === null);
  const office = here.filter(({ roles }) => roles.includes('office_manager'));
  return office.length > 0 ? office : here.filter(({ roles }) => roles.includes('owner'));
}

/** The reason stays on the page: mail may be read by others. */
export async function tellDeciders(
  work: Work,
  person: PersonRow,
  about: { id: string; span: string; what: keyof typeof LINES },
): Promise<void> {
  const { subject, body } = LINES[about.what];
  for (const to of await deciders(work))
    await work.mail({
      messageKey: `absence:${about.id}:${about.what}:${to.id}`,
      toAddress: to.email,
      toName: to.name,
      subject: `${person.name} ${subject}`,
      body: `${person.name} ${body}\n\n${about.span}\n`,
      aboutKind: 'person',
      aboutId: person.id,
    });
}

/** Tells the person what was decided. */
export async function tellOfDecision(
  work: Work,
  absence: AbsenceRow,
  said: { state: string; reason: string; span: string },
): Promise<void> {
  const person = await findPerson(work.tx, absence.personId);
  if (!person) return;
  await work.mail({
    messageKey: `absence:${absence.id}:${said.state}`,
    toAddress: person.email,
    toName: person.name,
    subject: `Your absence was ${said.state}`,
    body: `${said.span}\n\nIt was ${said.state}.${said.reason === '' ? '' : `\n\n${said.reason}`}\n`,
    aboutKind: 'person',
    aboutId: person.id,
  });
}
