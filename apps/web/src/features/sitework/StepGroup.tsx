// A group that is done first and then confirmed: exceptions and answers first, then one act for all of them.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { placeOf } from '@backsight/domain/sitework/value';
import { useDrafts } from '../../api/phone/drafts.ts';
import type { UncountedEntry } from '../../api/phone/outbox.ts';
import { withVoice, type Voice } from './voice.ts';
import { Answer } from './Answer.tsx';
import { Choices } from './Choices.tsx';
import { BLANK, entryOf, missingIn, type Draft } from './drafts.ts';
import { Outcome, SpokenTaker } from './later.tsx';
import { Recorded } from './OneStep.tsx';
import { useSpoken, useTaken } from './photoModel.ts';
import { isRecorded, itemName, partnerOf, type Shown } from './recordModel.ts';
import { AddPhoto } from './StepForm.tsx';
import { More } from './StepWords.tsx';
import classes from './sitework.module.css';

type Props = {
  record: MemberRecord;
  title: string;
  steps: readonly SiteStep[];
  places: Map<string, Shown[]>;
  onRecord: (entries: UncountedEntry[]) => void;
};

export function StepGroup({ record, title, steps, places, onRecord }: Props): ReactNode {
  const drafts = useDrafts(record.id, { draft: BLANK });
  const [by, setBy] = useState(record.me);
  const [asked, setAsked] = useState(false);
  const partner = partnerOf(record);
  const oneItem = steps.every(({ itemId }) => itemId === steps[0]!.itemId);
  const item = oneItem ? itemName(record, steps[0]!.itemId) : null;
  const open = steps.filter((step) => !isRecorded(step, places.get(placeOf(step)), record.me));
  const [taken, spoken] = [useTaken(record.id), useSpoken(record.id)];
  const draftOf = (step: SiteStep, now: Voice | null = null): Draft => ({
    ...drafts.of(placeOf(step)).draft,
    photos: (taken.get(placeOf(step)) ?? []).map(({ id }) => id),
    spoken: [...(spoken.get(placeOf(step)) ?? []), ...(now?.place === placeOf(step) ? [now] : [])].map(({ id }) => id),
  });
  const readyWith = (now: Voice | null) => open.filter((step) => missingIn(step, draftOf(step, now)) === null);
  const ready = readyWith(null);
  const confirm = () =>
    withVoice((now) => {
      const whole = readyWith(now);
      setAsked(whole.length < open.length);
      if (whole.length > 0) onRecord(whole.map((step) => entryOf(step, draftOf(step, now), by)));
    });
  return (
    <section className={classes.step}>
      <h2>
        {title}
        {item ? `: ${item}` : ''}
      </h2>
      <p className={classes.soft}>
        Go through these, then record. Note first what is not there, could not be inspected or asks for an answer.
      </p>
      {steps.map((step) => (
        <GroupRow
          key={placeOf(step)}
          record={record}
          step={step}
          item={oneItem ? null : itemName(record, step.itemId)}
          draft={draftOf(step)}
          missing={asked ? missingIn(step, draftOf(step)) : null}
          onChange={(part) => drafts.change(placeOf(step), { draft: { ...draftOf(step), ...part } })}
          done={
            open.includes(step) ? null : <Recorded record={record} step={step} here={places.get(placeOf(step)) ?? []} onRecord={onRecord} />
          }
        />
      ))}
      {open.length > 0 ? (
        <>
          {partner ? (
            <Choices
              legend="Looked at by"
              name={`${title}-${item}-by`}
              two
              options={[
                { key: record.me, label: 'Me' },
                { key: partner.personId, label: partner.name },
              ]}
              value={by}
              onChange={setBy}
            />
          ) : null}
          {asked ? (
            <p role="alert" className={classes.caution}>
              {open.length} still {open.length === 1 ? 'needs' : 'need'} an answer.
            </p>
          ) : null}
          <div className={classes.acts}>
            <Button size="xl" fullWidth onClick={confirm}>
              {ready.length === open.length ? `Confirm all of these (${open.length})` : `Record ${ready.length} of ${open.length}`}
            </Button>
          </div>
        </>
      ) : null}
    </section>
  );
}

type RowProps = {
  record: MemberRecord;
  step: SiteStep;
  /** Of which thing, where the group is for several. */
  item: string | null;
  draft: Draft;
  missing: string | null;
  done: ReactNode;
  onChange: (part: Partial<Draft>) => void;
};

function GroupRow({ record, step, item, draft, missing, done, onChange }: RowProps): ReactNode {
  const [exception, setException] = useState(draft.outcome !== 'done');
  return (
    <div className={classes.row}>
      <h3>
        {step.title}
        {item ? `: ${item}` : ''}
      </h3>
      <p>{step.instruction}</p>
      <More step={step} />
      {done ?? (
        <>
          {draft.outcome === 'done' ? <Answer record={record} step={step} draft={draft} onChange={onChange} /> : null}
          {step.evidence.kind === 'photo' && draft.outcome === 'done' ? null : (
            <AddPhoto record={record} place={placeOf(step)} some={draft.photos.length > 0} />
          )}
          <details className={classes.more} open={draft.spoken.length > 0 || undefined}>
            <summary>Add a spoken note</summary>
            <SpokenTaker recordId={record.id} place={placeOf(step)} />
          </details>
          {exception ? (
            <Outcome step={step} draft={draft} onChange={onChange} />
          ) : (
            <Button variant="default" size="lg" mt="sm" onClick={() => setException(true)}>
              Not there, or not inspected
            </Button>
          )}
          {missing ? (
            <p role="alert" className={classes.caution}>
              {missing}
            </p>
          ) : null}
        </>
      )}
    </div>
  );
}
