// Somebody is inside: until when, and an alarm of this phone by itself when the time is over, also without signal.
import { HAZARD_PLACES } from '@backsight/domain/shared/places';
import { useEffect, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { MemberRecord } from '@backsight/contract/sitework';
import { type KnownAct, type SiteAct } from '@backsight/domain/sitework/act';
import { insideNow, overdueFor, type Inside } from '@backsight/domain/sitework/inside';
import { useMe } from '../../api/people.ts';
import { clockText } from '../../ui/time.ts';
import { nameOf } from './recordModel.ts';
import { alarmOnce, keepAwake } from './alarm.ts';
import classes from './sitework.module.css';

type Props = { record: MemberRecord; acts: readonly KnownAct[]; onOut: (act: SiteAct) => void };

export function ReturnAlarm({ record, acts, onOut }: Props): ReactNode {
  const inside = insideNow(acts);
  const now = useTicking(inside.length > 0);
  const late = inside.some(({ backBy }) => overdueFor(backBy, now) !== 'nobody');
  useEffect(() => (inside.length > 0 ? keepAwake() : undefined), [inside.length]);
  useEffect(() => {
    if (!late) return;
    alarmOnce();
    const timer = setInterval(alarmOnce, 4_000);
    return () => clearInterval(timer);
  }, [late]);
  return inside.map((one) => <Row key={one.id} one={one} now={now} record={record} onOut={onOut} />);
}

function Row({ one, now, record, onOut }: { one: Inside; now: number; record: MemberRecord; onOut: Props['onOut'] }): ReactNode {
  const me = useMe();
  const due = overdueFor(one.backBy, now);
  const left = Math.ceil((Date.parse(one.backBy) - now) / 60_000);
  const who = one.person === record.me ? 'You are' : `${nameOf(record, one.person)} is`;
  return (
    <div className={due === 'nobody' ? classes.notice : classes.caution} role={due === 'nobody' ? undefined : 'alert'}>
      <p>
        <strong>
          {due === 'nobody'
            ? `${who} in or on the ${HAZARD_PLACES[one.place]}: back by ${clockText(one.backBy, me.zone)}, ${left} min left.`
            : `Not back: ${nameOf(record, one.person)}, ${HAZARD_PLACES[one.place]}, due at ${clockText(one.backBy, me.zone)}.`}
        </strong>
      </p>
      {due === 'nobody' ? null : <p>Call out at the opening. No answer: do not go in alone, call 911. The office is told by itself.</p>}
      <div className={classes.acts}>
        <Button size="xl" fullWidth onClick={() => onOut({ do: 'came_out', of: one.id })}>
          {one.person === record.me ? 'I am out' : `${nameOf(record, one.person)} is out`}
        </Button>
      </div>
    </div>
  );
}

/** The time by this phone, every second while it matters. */
function useTicking(on: boolean): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    if (!on) return;
    const timer = setInterval(() => setNow(Date.now()), 1_000);
    return () => clearInterval(timer);
  }, [on]);
  return now;
}
