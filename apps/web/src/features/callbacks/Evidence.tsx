// What was recorded beside what the report said, with agreement, claim window and licenses.
import { useState, type ReactNode } from 'react';
import { NativeSelect, SimpleGrid, Title } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { Callback, CallbackEvidence } from '@backsight/contract/callbacks';
import { evidenceQuery } from '../../api/callbacks.ts';
import { Details } from '../../ui/Details.tsx';
import { Empty } from '../../ui/Empty.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { Besides } from './Besides.tsx';
import { Photos, Recorded } from './Recorded.tsx';
import { Reported } from './Reported.tsx';

export function Evidence({ callback }: { callback: Callback }): ReactNode {
  const found = useQuery(evidenceQuery(callback.id));
  const [system, setSystem] = useState(callback.system);
  const evidence = found.data;
  if (!evidence)
    return (
      <Section title="Evidence">
        <ProblemNote of={found.error} />
        {found.isPending ? <Loading /> : null}
      </Section>
    );
  const systems = [...new Map(evidence.steps.map((s) => [s.system, s.procedureTitle]))].map(([value, label]) => ({ value, label }));
  const shown = systems.some(({ value }) => value === system) ? system : '';
  const title = systems.find(({ value }) => value === shown)?.label;
  return (
    <Section
      title="Evidence"
      actions={
        <NativeSelect
          aria-label="System shown"
          value={shown}
          onChange={(e) => setSystem(e.currentTarget.value)}
          data={[{ value: '', label: 'Every system' }, ...systems]}
        />
      }
    >
      <SimpleGrid cols={{ base: 1, md: 2 }} spacing="xl">
        <div>
          <Title order={3}>Recorded on site</Title>
          <Besides acts={evidence.acts.filter((act) => shown === '' || act.atPlace || (act.systems?.includes(shown) ?? true))} />
          {evidence.steps.length === 0 ? (
            <Empty>There is no site record of this job.</Empty>
          ) : (
            <>
              <Photos photos={evidence.photos.filter(({ about }) => about !== null)} />
              <Recorded steps={evidence.steps.filter((s) => shown === '' || s.system === shown)} photos={evidence.photos} />
            </>
          )}
        </div>
        <div>
          <Title order={3}>The report said</Title>
          {evidence.reports.length === 0 ? (
            <Empty>No report of this job is on file.</Empty>
          ) : (
            evidence.reports.map((report) => <Reported key={report.id} report={report} system={title ?? null} />)
          )}
        </div>
      </SimpleGrid>
      <Papers evidence={evidence} />
    </Section>
  );
}

function Papers({ evidence: { agreements, windows, pair, records } }: { evidence: CallbackEvidence }): ReactNode {
  const newest = agreements[0];
  const { window } = windows;
  return (
    <Details
      rows={[
        [
          'Pair',
          pair.map((p) => (
            <div
              key={p.name}
            >{`${p.name} (${p.place}): ${p.licenses.map((l) => `license ${l.number}, until ${l.untilDay}`).join('; ') || 'no license on that day'}`}</div>
          )),
        ],
        [
          'Site record',
          records.map((r) => (
            <div key={r.visitId}>
              opened <When at={r.openedAt} />
              {r.sealedAt ? (
                <>
                  , sealed <When at={r.sealedAt} />
                </>
              ) : (
                ', not sealed'
              )}
            </div>
          )),
        ],
        [
          'Agreement',
          newest ? (
            <>
              {`${newest.textTitle}: ${newest.signers.map((s) => `${s.name} ${s.signedAt ? 'signed' : 'has not signed'}`).join(', ')}. ${newest.reviewedByAttorney ? '' : 'An example text: no attorney has reviewed it. '}${newest.binds ? '' : 'It does not bind the one who speaks.'}`}
              <details>
                <summary>Read it</summary>
                <p style={{ whiteSpace: 'pre-wrap' }}>{newest.body}</p>
              </details>
            </>
          ) : (
            'None'
          ),
        ],
        [
          'Claim window',
          window ? (
            <>
              <Day day={window.shortUntil} /> by the short reading, <Day day={window.longUntil} /> by the long one, counted from{' '}
              <Day day={window.from} />. For an attorney to judge. {window.sources.join('; ')}
            </>
          ) : (
            'No rule or no day known'
          ),
        ],
      ]}
    />
  );
}
