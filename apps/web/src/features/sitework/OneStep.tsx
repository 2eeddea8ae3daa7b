// A page of one step: read, do, record; and for a partner check the comparison once both answers are in.
import { useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { MemberRecord, SiteStep } from '@backsight/contract/sitework';
import { endedEarly } from '@backsight/domain/sitework/endedAs';
import { placeOf } from '@backsight/domain/sitework/value';
import { useDrafts } from '../../api/phone/drafts.ts';
import type { UncountedEntry } from '../../api/phone/outbox.ts';
import { hasLooked, isRecorded, itemName, nameOf, partnerOf, saidAt, type Shown } from './recordModel.ts';
import { actEntry } from './acts.ts';
import { EntryPhotos, Settle } from './later.tsx';
import { correctionPlace, StepForm } from './StepForm.tsx';
import { Caution, More } from './StepWords.tsx';
import classes from './sitework.module.css';

type Props = { record: MemberRecord; step: SiteStep; here: readonly Shown[]; onRecord: (entries: UncountedEntry[]) => void };

export function OneStep({ record, step, here, onRecord }: Props): ReactNode {
  const item = itemName(record, step.itemId);
  const done = isRecorded(step, here, record.me);
  return (
    <section className={classes.step}>
      <Caution step={step} />
      <h2>
        {step.title}
        {item ? `: ${item}` : ''}
      </h2>
      {step.who === 'first' ? <p className={classes.soft}>Asked of the first of the pair.</p> : null}
      <p>{step.instruction}</p>
      {step.kit.length > 0 ? <p className={classes.soft}>Take: {step.kit.join(', ').replaceAll('_', ' ')}</p> : null}
      <More step={step} />
      {step.partnerCheck ? <PartnerCheck record={record} step={step} here={here} onRecord={onRecord} /> : null}
      {done ? (
        <Recorded record={record} step={step} here={here} onRecord={onRecord} />
      ) : (
        <StepForm record={record} step={step} onRecord={onRecord} />
      )}
    </section>
  );
}

const SAYS = {
  agree: 'Your answers agree.',
  differ: 'Your answers differ. Look again together; each of you may correct the own answer with a reason.',
  not_compared: 'Read both notes together.',
  one_look: 'One of you looked: the visit ended before the other could. There is nothing to settle.',
};

function PartnerCheck({ record, step, here, onRecord }: Props): ReactNode {
  const partner = partnerOf(record);
  const result = record.comparisons.find((c) => placeOf(c) === placeOf(step))?.result;
  const hidden = record.withheld.some((place) => placeOf(place) === placeOf(step));
  const name = partner?.name ?? 'your partner';
  const settled = record.acts.some(({ act }) => act.do === 'settled' && placeOf({ ...act, itemId: act.item }) === placeOf(step));
  return (
    <div className={classes.notice}>
      <p>
        <strong>Partner check.</strong>{' '}
        {result
          ? SAYS[result]
          : hasLooked(here, record.me)
            ? `Recorded. ${name} has still to look; then both answers are shown.`
            : endedEarly(record.endedAs)
              ? 'The visit ended before either of you looked here.'
              : `Each of you looks alone. What ${name} answers stays hidden until yours is in.${hidden ? ` ${name} has recorded already.` : ''}`}
        {settled ? ' Settled on site.' : ''}
      </p>
      {result === 'differ' && !settled && record.state === 'open' ? (
        <Settle recordId={record.id} place={step} onSettle={(act, note) => onRecord([actEntry(record, act, { note })])} />
      ) : null}
    </div>
  );
}

/** What stands at a step, and the way to correct one's own entry. */
export function Recorded({ record, step, here, onRecord }: Props): ReactNode {
  const drafts = useDrafts(record.id, {});
  const [correcting, setCorrecting] = useState(() => here.find(({ id }) => drafts.has(correctionPlace(step, id)))?.id ?? null);
  const record1 = (entries: UncountedEntry[]) => {
    setCorrecting(null);
    onRecord(entries);
  };
  return (
    <>
      {here.map((entry) => (
        <div key={entry.id} className={classes.notice}>
          <p>
            <strong>{saidAt(step, entry)}</strong>
            {entry.note ? `. ${entry.note}` : ''}
          </p>
          <p className={classes.soft}>
            {entry.observedBy === record.me ? 'Looked at by you' : `Looked at by ${nameOf(record, entry.observedBy)}`}
            {entry.sent ? '' : ', not sent yet'}
          </p>
          <EntryPhotos record={record} entryId={entry.id} />
          {entry.observedBy === record.me && record.state === 'open' ? (
            <Button variant="default" size="lg" mt="xs" onClick={() => setCorrecting(correcting ? null : entry.id)}>
              {correcting ? 'Leave it' : 'Correct this'}
            </Button>
          ) : null}
        </div>
      ))}
      {correcting ? <StepForm record={record} step={step} corrects={correcting} onRecord={record1} /> : null}
    </>
  );
}
