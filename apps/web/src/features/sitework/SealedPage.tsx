// The sealed record as a whole: every entry with who looked, who wrote and when; corrected ones stay in sight.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { getRouteApi } from '@tanstack/react-router';
import type { SealedRecord } from '@backsight/contract/sitework';
import { ENDINGS } from '@backsight/domain/sitework/endedAs';
import { sayEntry } from '@backsight/domain/sitework/say';
import { CORRECTIONS, placeOf } from '@backsight/domain/sitework/value';
import { useMe } from '../../api/people.ts';
import { sealedQuery } from '../../api/sitework.ts';
import { DataTable, type Column } from '../../ui/DataTable.tsx';
import { Details } from '../../ui/Details.tsx';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { clockText } from '../../ui/time.ts';
import { When } from '../../ui/When.tsx';
import { ActList } from './ActList.tsx';
import { AfterSeal } from './AfterSeal.tsx';
import { EntryPhotos } from './EntryPhotos.tsx';
import { Originals } from './Originals.tsx';
import { itemName, nameOf } from './recordModel.ts';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/records/$recordId/sealed');
type Entry = SealedRecord['entries'][number];

export function SealedPage(): ReactNode {
  const { recordId } = route.useParams();
  const { data, error, isPending } = useQuery(sealedQuery(recordId));
  const actions = data ? (
    <>
      <ButtonLink to="/callbacks/new" search={{ job: String(data.visit.jobNumber), kind: 'near_miss' }} variant="default">
        Record a near-miss
      </ButtonLink>
      <ButtonLink to="/jobs/$jobId/report" params={{ jobId: data.visit.jobId }}>
        Report of this job
      </ButtonLink>
    </>
  ) : undefined;
  return (
    <Page
      title={data ? `Sealed record: ${data.visit.address}` : 'Sealed record'}
      about="The firm's work paper. The client gets the report; this goes out only by the owner's act."
      actions={actions}
    >
      <ProblemNote of={error} />
      {isPending ? <Loading /> : null}
      {data ? <Whole record={data} /> : null}
    </Page>
  );
}

function Whole({ record }: { record: SealedRecord }): ReactNode {
  const systems = [...new Set(record.steps.map(({ procedureTitle }) => procedureTitle))];
  return (
    <>
      {record.seal.holds ? null : (
        <div className={classes.caution}>
          <strong>The seal does not hold.</strong>Something in this record is not as it was when it was sealed. Tell the owner.
        </div>
      )}
      <Details
        rows={[
          ['Job', `${record.visit.jobNumber}, ${record.visit.pair.map(({ name }) => name).join(' and ')}`],
          ['Visit', <When key="visit" at={record.openedAt} />],
          ['Ended', record.endedAs ? ENDINGS[record.endedAs] : ''],
          ['Sealed', <When key="sealed" at={record.seal.sealedAt} />],
          [
            'Fingerprint',
            <span key="seal" className={classes.code}>
              {record.seal.sha256}
            </span>,
          ],
          ...(record.seal.startDespiteGate ? [['Start', 'Started although something was missing; the reason is on file'] as const] : []),
        ]}
      />
      <p>
        <a href={`/api/records/${record.id}/paper`}>The whole record on paper (PDF)</a>
      </p>
      <AfterSeal recordId={record.id} />
      <Originals record={record} />
      <ActList record={record} />
      {systems.map((system) => (
        <System key={system} name={system} record={record} />
      ))}
    </>
  );
}

function System({ name, record }: { name: string; record: SealedRecord }): ReactNode {
  const me = useMe();
  const steps = record.steps.filter(({ procedureTitle }) => procedureTitle === name);
  const rows = steps.flatMap((step) => record.entries.filter((e) => placeOf(e) === placeOf(step)).map((entry) => ({ step, entry })));
  const columns: Column<(typeof rows)[number]>[] = [
    { key: 'step', head: 'Step', cell: ({ step }) => `${step.title}${step.itemId ? ` (${itemName(record, step.itemId)})` : ''}` },
    {
      key: 'answer',
      head: 'Recorded',
      cell: ({ step, entry }) => <Said record={record} entry={entry} words={sayEntry(entry, step.evidence)} />,
    },
    {
      key: 'by',
      head: 'Looked at by',
      cell: ({ entry }) =>
        `${nameOf(record, entry.observedBy)}${entry.writtenBy === entry.observedBy ? '' : `, written by ${nameOf(record, entry.writtenBy)}`}`,
    },
    {
      key: 'at',
      head: 'When',
      oneLine: true,
      cell: ({ entry }) => `${entry.observedApprox ? 'about ' : ''}${clockText(entry.observedAt, me.zone)}`,
    },
    { key: 'rev', head: 'Revision', align: 'right', cell: ({ step }) => step.revisionNumber },
  ];
  return (
    <section>
      <h2 className={classes.day}>{name}</h2>
      <DataTable caption={`Entries: ${name}`} columns={columns} rows={rows} rowKey={({ entry }) => entry.id} />
    </section>
  );
}

const HINTS: Record<string, string> = {
  outside: ', outside what is usual',
  differs: ', differs from the count before',
  as_expected: ', as expected',
};

function Said({ record, entry, words }: { record: SealedRecord; entry: Entry; words: string }): ReactNode {
  const text = `${words}${HINTS[entry.match] ?? ''}`;
  return (
    <>
      {entry.counts ? (
        text
      ) : (
        <>
          <s>{text}</s> (replaced later)
        </>
      )}
      {entry.note ? <div>{entry.note}</div> : null}
      <EntryPhotos record={record} entryId={entry.id} />
      {entry.correction ? <div className={classes.soft}>Correction: {CORRECTIONS[entry.correction]}</div> : null}
    </>
  );
}
