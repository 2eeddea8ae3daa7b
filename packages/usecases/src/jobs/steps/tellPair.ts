// Mails the people of the firm whose day changes: who goes to a visit, who went to it before, and who comes along.
import { appointmentInWords } from '@backsight/domain/agreements/facts';
import { pairMail } from '@backsight/domain/agreements/notices';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import { findPeopleAddresses } from '@backsight/store/agreements/names';
import type { Work } from '../../run.ts';

type Times = { startsAt: Date; endsAt: Date };
type Crew = Times & { first: string; second: string | null };
export type Told = { visitId: string; version: number; what: string; now: Crew; before?: Crew };

const crewOf = (visit: Crew | undefined): string[] => (visit ? [visit.first, visit.second].filter((id) => id !== null) : []);

/** Each person gets one mail for each booking or move: it says whether he goes, or goes no more. */
export async function tellPair(work: Work, job: JobForAgreement, { visitId, version, what, now, before }: Told): Promise<void> {
  const people = await findPeopleAddresses(work.tx, [...new Set([...crewOf(now), ...crewOf(before)])]);
  const nameOf = (id: string): string => people.find((one) => one.id === id)?.name ?? '';
  const say = ({ startsAt, endsAt }: Times) =>
    appointmentInWords({ startsAt: startsAt.toISOString(), endsAt: endsAt.toISOString() }, job.zone);
  for (const { id, name, email } of people) {
    const goes = crewOf(now).includes(id);
    const went = crewOf(before).includes(id);
    await work.mail({
      messageKey: `crew:${visitId}:${version}:${id}`,
      toAddress: email,
      toName: name,
      subject: `${goes ? (before ? 'Changed' : 'New') : 'No longer yours'}: ${what}, job ${job.number}`,
      body: pairMail({
        name,
        what,
        number: job.number,
        address: job.address,
        now: goes ? say(now) : null,
        before: before && went ? say(before) : null,
        with: crewOf(now)
          .filter((one) => one !== id)
          .map(nameOf),
      }),
      aboutKind: 'job',
      aboutId: job.id,
    });
  }
}
