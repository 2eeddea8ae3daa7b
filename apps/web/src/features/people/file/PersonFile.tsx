// What is on file of a person beside the person: licenses, education, qualifications, hours, absences, barred properties.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { useMe } from '../../../api/people.ts';
import { fileQuery } from '../../../api/personFile.ts';
import { Loading } from '../../../ui/Loading.tsx';
import { ProblemNote } from '../../../ui/ProblemNote.tsx';
import { Absences } from './Absences.tsx';
import { Bars } from './Bars.tsx';
import { Education } from './Education.tsx';
import { Exceptions } from './Exceptions.tsx';
import { Hours } from './Hours.tsx';
import { Licenses } from './Licenses.tsx';
import { Qualifications } from './Qualifications.tsx';
import { PersonSizes } from './Sizes.tsx';

/** `inspects`: goes to visits, so that kit has to fit. */
export function PersonFile({ personId, inspects }: { personId: string; inspects: boolean }): ReactNode {
  const me = useMe();
  const file = useQuery(fileQuery(personId));
  const office = me.roles.includes('owner') || me.roles.includes('office_manager');
  const lead = office || me.roles.includes('lead_inspector');
  if (file.isPending) return <Loading />;
  if (!file.data) return <ProblemNote of={file.error} />;
  const { licenses, qualifications, qualificationKinds, hours, exceptions, absences, bars, sizes } = file.data;
  return (
    <>
      <Licenses personId={personId} rows={licenses} mayAdd={office} />
      {(licenses.length > 0 || hours.length > 0) && (lead || me.id === personId) ? <Education personId={personId} /> : null}
      <Qualifications personId={personId} rows={qualifications} kinds={qualificationKinds} mayAdd={lead} />
      <Hours personId={personId} rows={hours} mayChange={office} />
      {inspects || hours.length > 0 ? <PersonSizes personId={personId} rows={sizes} mayChange={lead} /> : null}
      <Exceptions personId={personId} rows={exceptions} mayChange={lead} />
      <Absences personId={personId} rows={absences} mayAdd={lead || me.id === personId} />
      {office ? <Bars personId={personId} rows={bars} /> : null}
    </>
  );
}
