// One's own working time on one page, made for a phone: absences, days with other hours, miles, education hours, calendar.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { useMe } from '../../api/people.ts';
import { fileQuery } from '../../api/personFile.ts';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { CalendarAddress } from './CalendarAddress.tsx';
import { Absences } from './file/Absences.tsx';
import { Education } from './file/Education.tsx';
import { Exceptions } from './file/Exceptions.tsx';
import { OwnMiles } from './mileage/OwnMiles.tsx';

export function MyTimePage(): ReactNode {
  const me = useMe();
  const file = useQuery(fileQuery(me.id));
  return (
    <Page title="My time" width="narrow" about="When you are away, what you drove, what you learned.">
      <ProblemNote of={file.error} />
      {file.isPending ? <Loading /> : null}
      {file.data ? (
        <>
          <Absences personId={me.id} rows={file.data.absences} mayAdd />
          <Exceptions personId={me.id} rows={file.data.exceptions} mayChange={false} />
        </>
      ) : null}
      <OwnMiles />
      <Education personId={me.id} />
      <CalendarAddress />
    </Page>
  );
}
