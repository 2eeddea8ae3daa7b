// A visit in hand: where it would be put, by keys or by fields, what that would come to, and putting it down.
import { useEffect, useRef, type KeyboardEvent, type ReactNode } from 'react';
import { NativeSelect, TextInput } from '@mantine/core';
import type { Week } from '@backsight/contract/schedule';
import { TextLink } from '../../ui/links.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Button } from '@mantine/core';
import { instantText } from '../../ui/time.ts';
import { Consequences, inShort } from './Consequences.tsx';
import { PutDown, type Sent } from './PutDown.tsx';
import { byKey, movable, sameSpot, saySpot, type Held, type Spot } from './spot.ts';
import { spotOf, useRehearsal } from './useHand.ts';
import classes from './hand.module.css';

type Props = {
  held: Held;
  week: Week;
  days: readonly string[];
  /** In the order of the rows. */
  people: readonly { id: string; name: string; trainee: boolean }[];
  mayMove: boolean;
  onHold: (held: Held) => void;
  onLeave: () => void;
  onDone: (sent: Sent) => void;
};

export function Hand({ held, week, days, people, mayMove, onHold, onLeave, onDone }: Props): ReactNode {
  const { visit, was, spot } = held;
  const { zone } = week;
  const rehearsal = useRehearsal(held, zone);
  const put = useRef<(() => void) | null>(null);
  const name = (id: string): string => people.find((one) => one.id === id)?.name ?? 'somebody';
  const can = mayMove && movable(visit);
  const at = sameSpot(was, spot);
  const onKeyDown = (event: KeyboardEvent) => {
    if (!can) return undefined;
    const next = byKey(held, event, { days, people });
    if (next) onHold(next);
    else if (event.key === 'Enter' && at) onLeave();
    else if (event.key === 'Enter') put.current?.();
    else return undefined;
    return event.preventDefault();
  };
  useEscape(onLeave);
  return (
    <section className={classes.hand} aria-label="Visit in hand">
      <div className={classes.about}>
        <Handle held={held} can={can} text={saySpot(spot, name)} onKeyDown={onKeyDown} />
        <p>
          {visit.kindName},{' '}
          <TextLink to="/jobs/$jobId" params={{ jobId: visit.jobId }}>
            job {visit.jobNumber}
          </TextLink>
          {visit.openNeeds > 0 ? `, ${visit.openNeeds} still to get` : ''}
          {visit.holdEndsAt && visit.state === 'held' ? `, held until ${instantText(visit.holdEndsAt, zone)}` : ''}
          {visit.locked ? ', kept from plans' : ''}. {at ? '' : `It is at ${saySpot(was, name)}.`}
        </p>
        {can ? <Fields spot={spot} people={people} onSpot={(next) => onHold(landed(held, next))} /> : null}
        {!can ? <p>{mayMove ? 'It has begun or is over, so it stays where it is.' : 'The office moves visits.'}</p> : null}
      </div>
      <div className={classes.means} aria-busy={rehearsal.pending}>
        <p role="status" className={classes.unseen}>
          {at ? '' : `${saySpot(spot, name)}. `}
          {rehearsal.data ? inShort(rehearsal.data) : ''}
        </p>
        {can && at ? <p>Where it is now. Move it, and what that would mean is shown here before anything changes.</p> : null}
        {rehearsal.pending ? <p>Looking at what this would mean …</p> : null}
        <ProblemNote of={rehearsal.error} />
        {rehearsal.data ? (
          <Consequences of={rehearsal.data} zone={zone} onTake={(start) => onHold(landed(held, spotOf({ ...visit, ...start }, zone)))} />
        ) : null}
      </div>
      <div className={classes.act}>
        {can && rehearsal.start ? <PutDown held={held} start={rehearsal.start} of={rehearsal.data} putRef={put} onDone={onDone} /> : null}
        <Button variant="default" onClick={onLeave}>
          {at ? 'Close' : 'Leave it'}
        </Button>
      </div>
    </section>
  );
}

function useEscape(leave: () => void): void {
  useEffect(() => {
    const onKey = (event: globalThis.KeyboardEvent): void => {
      if (event.key === 'Escape') leave();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [leave]);
}

/** With other people chosen by name, the carrier is the first who goes. */
const landed = (held: Held, spot: Spot): Held => ({
  ...held,
  spot,
  carrier: [spot.first, spot.second].includes(held.carrier) ? held.carrier : spot.first,
});

type HandleProps = { held: Held; can: boolean; text: string; onKeyDown: (event: KeyboardEvent) => void };

/** Takes the focus when a visit is taken, and the keys that carry it. */
function Handle({
  held: {
    visit,
    spot: { minute },
  },
  can,
  text,
  onKeyDown,
}: HandleProps): ReactNode {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => box.current?.focus(), [visit.id]);
  const how =
    'Left and right: 15 minutes, with Shift an hour. Page up and down: a day. Up and down: another person. Enter puts it down, Escape leaves it.';
  return (
    <div
      ref={box}
      role="slider"
      tabIndex={0}
      aria-valuemin={0}
      aria-valuemax={1425}
      aria-valuenow={minute}
      aria-valuetext={text}
      className={classes.handle}
      aria-label={`${visit.address}, in hand. ${can ? how : ''}`}
      onKeyDown={onKeyDown}
    >
      <strong>
        {visit.address}, {visit.town}
      </strong>
      <span>{text}</span>
      {can ? <kbd>← → time, Page ↑ ↓ day, ↑ ↓ person, Enter put down, Esc leave</kbd> : null}
    </div>
  );
}

const clock = (minute: number): string => `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;

function Fields({ spot, people, onSpot }: { spot: Spot; people: Props['people']; onSpot: (spot: Spot) => void }): ReactNode {
  const names = people.map(({ id, name, trainee }) => ({ value: id, label: trainee ? `${name} (in training)` : name }));
  return (
    <div className={classes.fields}>
      <TextInput
        label="Day"
        type="date"
        value={spot.day}
        onChange={({ currentTarget: { value } }) => value && onSpot({ ...spot, day: value })}
      />
      <TextInput
        label="Start"
        type="time"
        step={900}
        value={clock(spot.minute)}
        onChange={({ currentTarget: { value } }) => {
          const [hour, minute] = value.split(':').map(Number);
          if (value) onSpot({ ...spot, minute: hour! * 60 + minute! });
        }}
      />
      <NativeSelect
        label="Goes first"
        data={names}
        value={spot.first}
        onChange={({ currentTarget: { value } }) =>
          onSpot(value === spot.second ? { ...spot, first: value, second: spot.first } : { ...spot, first: value })
        }
      />
      {spot.second === null ? null : (
        <NativeSelect
          label="Second"
          data={names}
          value={spot.second}
          onChange={({ currentTarget: { value } }) =>
            onSpot(value === spot.first ? { ...spot, first: spot.second!, second: value } : { ...spot, second: value })
          }
        />
      )}
    </div>
  );
}
