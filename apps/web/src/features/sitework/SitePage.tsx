// A page of the record beside its steps: the record and its acts as this phone knows them, and one way to add an act.
import { useState, type ReactNode } from 'react';
import { useParams } from '@tanstack/react-router';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import type { ActWords, KnownAct, SiteAct } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import type { UncountedEntry } from '../../api/phone/outbox.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { actEntry, actsHere } from './acts.ts';
import { ReturnAlarm } from './ReturnAlarm.tsx';
import { entriesByPlace, isRecorded } from './recordModel.ts';
import { useRecord } from './useRecord.ts';
import { WaitingNote } from './WaitingNote.tsx';
import classes from './sitework.module.css';

export type Site = {
  record: MemberRecord;
  acts: KnownAct[];
  /** Keeps an act on the phone. Answers whether it could be kept. */
  add: (act: SiteAct, words?: ActWords, by?: string, photos?: readonly string[]) => Promise<boolean>;
  addEntries: (entries: readonly UncountedEntry[]) => Promise<boolean>;
  /** Whether nothing more is wanted of this person at a step. */
  recorded: (step: SiteStep) => boolean;
};

export function SitePage({ title, about, children }: { title: string; about?: ReactNode; children: (site: Site) => ReactNode }): ReactNode {
  const { recordId = '' } = useParams({ strict: false });
  const { record, error, isPending, waiting, addEntries } = useRecord(recordId);
  const [failed, setFailed] = useState<unknown>(null);
  const put = async (entries: readonly UncountedEntry[]) => {
    try {
      await addEntries(entries);
      setFailed(null);
      return true;
    } catch (problem) {
      setFailed(problem);
      return false;
    }
  };
  const places = record ? entriesByPlace(record, waiting) : new Map<string, never[]>();
  const recorded = (step: SiteStep) => isRecorded(step, places.get(placeOf(step)), record?.me ?? '');
  const acts = record ? actsHere(record, waiting) : [];
  return (
    <Page
      title={title}
      width="narrow"
      about={about ?? (record ? `${record.visit.address}, job ${record.visit.jobNumber}` : undefined)}
      actions={
        <ButtonLink to="/records/$recordId" params={{ recordId }} variant="default" size="lg">
          Back to the steps
        </ButtonLink>
      }
    >
      {record ? null : <ProblemNote of={error} />}
      {isPending ? <Loading /> : null}
      {record ? (
        <div className={classes.work}>
          <ReturnAlarm record={record} acts={acts} onOut={(act) => put([actEntry(record, act)])} />
          <WaitingNote waiting={waiting} recordId={record.id} />
          <ProblemNote of={failed} />
          {record.state === 'sealed' ? (
            <p className={classes.notice}>This record is sealed: nothing is added to it.</p>
          ) : (
            children({
              record,
              acts,
              add: (act, words, by, photos) => put([actEntry(record, act, words, by, photos)]),
              addEntries: put,
              recorded,
            })
          )}
        </div>
      ) : null}
    </Page>
  );
}
