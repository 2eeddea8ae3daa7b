// The site record at work: one page of steps at a time, in order, with what is left always in sight.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { getRouteApi, useNavigate } from '@tanstack/react-router';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { divisionOf } from '@backsight/domain/sitework/divide';
import { goOn, pagesOf } from '@backsight/domain/sitework/pages';
import type { ActWords, KnownAct, SiteAct } from '@backsight/domain/sitework/act';
import { placeOf } from '@backsight/domain/sitework/value';
import type { UncountedEntry } from '../../api/phone/outbox.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { actEntry, actsHere } from './acts.ts';
import { AddItem, Contents, useLater } from './later.tsx';
import { OneStep } from './OneStep.tsx';
import { differingHere, entriesByPlace, isRecorded } from './recordModel.ts';
import { ReturnAlarm } from './ReturnAlarm.tsx';
import { SiteBar } from './SiteBar.tsx';
import { StepFrame } from './StepFrame.tsx';
import { StepGroup } from './StepGroup.tsx';
import { useRecord, type RecordHere } from './useRecord.ts';
import { WaitingNote } from './WaitingNote.tsx';
import { Where } from './Where.tsx';
import classes from './sitework.module.css';

const route = getRouteApi('/shell/records/$recordId');

export function RecordPage(): ReactNode {
  const { recordId } = route.useParams();
  const here = useRecord(recordId);
  useLater();
  const { record: data, error, isPending } = here;
  return (
    <Page
      title={data ? data.visit.address : 'Site record'}
      about={
        data
          ? `Job ${data.visit.jobNumber}, with ${
              data.visit.pair
                .filter(({ personId }) => personId !== data.me)
                .map(({ name }) => name)
                .join(', ') || 'nobody else'
            }`
          : undefined
      }
      width="narrow"
    >
      {data ? null : <ProblemNote of={error} />}
      {isPending ? <Loading /> : null}
      {data ? <Work record={data} here={here} /> : null}
    </Page>
  );
}

function Work({ record, here }: { record: MemberRecord; here: RecordHere }): ReactNode {
  const navigate = useNavigate();
  const search = route.useSearch();
  const { waiting } = here;
  const [failed, setFailed] = useState<unknown>(null);
  const acts = actsHere(record, waiting);
  const addAct = (act: SiteAct, how: { by?: string; words?: ActWords } = {}) =>
    void here.addEntries([actEntry(record, act, how.words, how.by)]).then(() => setFailed(null), setFailed);
  const places = entriesByPlace(record, waiting);
  const pages = pagesOf(record.steps);
  const done = (step: SiteStep): boolean => isRecorded(step, places.get(placeOf(step)), record.me);
  const takers = divisionOf(acts);
  const open = (step: SiteStep): boolean => !done(step);
  const mine = (step: SiteStep): boolean => open(step) && (step.partnerCheck || (takers.get(step.system) ?? record.me) === record.me);
  const nextOpen = goOn(pages, -1, [mine, open]);
  const current = Math.min(search.page ?? nextOpen ?? 0, pages.length - 1);
  const page = pages[current];
  const go = (to: number) => void navigate({ to: '/records/$recordId', params: { recordId: record.id }, search: { page: to } });
  const put = async (entries: UncountedEntry[]) => {
    try {
      await here.addEntries(entries);
      setFailed(null);
    } catch (error) {
      return setFailed(error);
    }
    const entered = new Set(entries.map(placeOf));
    const whole = page?.steps.every((step) => done(step) || entered.has(placeOf(step)));
    const next = goOn(pages, current, [mine, open]);
    if (whole && next !== null && entries.every(({ corrects }) => corrects === null)) go(next);
  };
  return (
    <div className={classes.work}>
      <Where record={record} acts={acts} done={done} title={page?.title} page={current} />
      <SiteBar record={record} acts={acts} />
      <ReturnAlarm record={record} acts={acts} onOut={addAct} />
      <WaitingNote waiting={waiting} recordId={record.id} />
      <Differing record={record} acts={acts} onGo={(step) => go(pages.findIndex(({ steps }) => steps.includes(step)))} />
      <ProblemNote of={failed} />
      {record.state === 'sealed' ? (
        <div className={classes.notice}>
          <p>
            This record is sealed.{' '}
            <ButtonLink to="/records/$recordId/sealed" params={{ recordId: record.id }} size="lg">
              Show it
            </ButtonLink>
          </p>
        </div>
      ) : null}
      {page ? (
        <StepFrame key={`${current}-${placeOf(page.steps[0]!)}`} record={record} acts={acts} steps={page.steps} onAct={addAct}>
          {page.kind === 'one' ? (
            <OneStep
              record={record}
              step={page.steps[0]!}
              here={places.get(placeOf(page.steps[0]!)) ?? []}
              onRecord={(entries) => void put(entries)}
            />
          ) : (
            <StepGroup record={record} title={page.title} steps={page.steps} places={places} onRecord={(entries) => void put(entries)} />
          )}
        </StepFrame>
      ) : (
        <p>No step applies here yet.</p>
      )}
      <nav className={classes.walk} aria-label="Steps">
        <Button variant="default" size="xl" disabled={current === 0} onClick={() => go(current - 1)}>
          Back
        </Button>
        <Button variant="default" size="xl" disabled={current >= pages.length - 1} onClick={() => go(current + 1)}>
          Next
        </Button>
      </nav>
      <details key={`contents-${current}`} className={classes.more}>
        <summary>All steps</summary>
        <Contents pages={pages} done={done} record={record} current={current} onGo={go} />
      </details>
      {record.state === 'open' ? (
        <details className={classes.more}>
          <summary>Add a thing found here</summary>
          <AddItem record={record} onAct={here.addAct} />
        </details>
      ) : null}
      <div className={classes.acts}>
        <ButtonLink
          to="/records/$recordId/seal"
          params={{ recordId: record.id }}
          size="xl"
          variant={nextOpen === null ? 'filled' : 'default'}
          fullWidth
        >
          End and seal
        </ButtonLink>
      </div>
      <p className={classes.soft}>Danger to people comes first: leave, and tell whoever is in the house. Nobody asks why.</p>
    </div>
  );
}

/** Partner checks in which the answers differ: said wherever in the record one is, to be settled while both are still there. */
function Differing({ record, acts, onGo }: { record: MemberRecord; acts: readonly KnownAct[]; onGo: (step: SiteStep) => void }): ReactNode {
  const open = differingHere(record, acts);
  if (open.length === 0 || record.state === 'sealed') return null;
  return (
    <div className={classes.caution}>
      <strong>Your answers differ: look again together.</strong>
      {open.map((step) => (
        <Button key={placeOf(step)} variant="default" size="lg" mt="xs" fullWidth onClick={() => onGo(step)}>
          {step.title}
        </Button>
      ))}
    </div>
  );
}
