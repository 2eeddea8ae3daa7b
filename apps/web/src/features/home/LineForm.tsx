// What is said in a line of the home: the same forms as on the page of what it is about, loaded when the first is opened.
import { lazy, Suspense, type ReactNode } from 'react';
import { useQuery, useQueryClient } from '@tanstack/react-query';
import type { HomeItem } from '@backsight/contract/home';
import { fileQuery } from '../../api/personFile.ts';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import classes from './home.module.css';

type Props = { item: HomeItem; done: () => void };

const CheckForm = lazy(async () => ({ default: (await import('../../ui/acts/CheckForm.tsx')).CheckForm }));
const DecideAbsence = lazy(async () => ({ default: (await import('../../ui/acts/DecideAbsence.tsx')).DecideAbsence }));

const Check = ({ item, done }: Props): ReactNode => <CheckForm id={item.thing.id} done={done} />;

/** With what is booked in it, which the person's file knows. */
function Absence({ item, done }: Props): ReactNode {
  const personId = item.thing.id;
  const file = useQuery(fileQuery(personId));
  const absence = file.data?.absences.find(({ id }) => id === item.id);
  return (
    <>
      <ProblemNote of={file.error} />
      {file.isPending ? <Loading /> : null}
      {absence ? <DecideAbsence personId={personId} absence={absence} done={done} /> : null}
    </>
  );
}

const FORMS = { afterChecks: Check, absencesAsked: Absence };
export type Formed = keyof typeof FORMS;

/** Closes when it was done, and the home is read again; or when it is left. */
export function LineForm({ list, item, done }: Props & { list: Formed }): ReactNode {
  const queries = useQueryClient();
  const ended = () => {
    done();
    void queries.invalidateQueries({ queryKey: ['home'] });
  };
  const Of = FORMS[list];
  return (
    <div className={classes.form}>
      <Suspense fallback={<Loading />}>
        <Of item={item} done={ended} />
      </Suspense>
    </div>
  );
}
