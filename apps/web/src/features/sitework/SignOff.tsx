// Each of the pair signs off for themselves: own times on site, and that what the own hand wrote is as it was seen.
import { useState, type ReactNode } from 'react';
import { Button, TextInput } from '@mantine/core';
import { signOffs } from '@backsight/domain/sitework/signOff';
import { useMe } from '../../api/people.ts';
import { clockText, localInput, toInstant } from '../../ui/time.ts';
import { nameOf } from './recordModel.ts';
import type { Site } from './SitePage.tsx';
import classes from './sitework.module.css';

type Props = Pick<Site, 'record' | 'acts' | 'add'>;

export function SignOff({ record, acts, add }: Props): ReactNode {
  const me = useMe();
  const signed = signOffs(acts);
  const mine = signed.get(record.me);
  const stale = record.missing.some(({ kind, person }) => kind === 'sign_off' && person === record.me);
  const [times, setTimes] = useState(() => ({
    from: localInput(new Date(mine?.from ?? record.openedAt), me.zone),
    until: localInput(new Date(), me.zone),
  }));
  const time = (key: 'from' | 'until', label: string) => (
    <TextInput
      type="datetime-local"
      label={label}
      size="lg"
      mt="sm"
      value={times[key]}
      onChange={(event) => setTimes({ ...times, [key]: event.currentTarget.value })}
    />
  );
  return (
    <section>
      <h2 className={classes.day}>Sign off</h2>
      {record.visit.pair.map(({ personId }) => {
        const off = signed.get(personId);
        const open = !off || record.missing.some(({ kind, person }) => kind === 'sign_off' && person === personId);
        return (
          <p key={personId}>
            {nameOf(record, personId)}:{' '}
            {off
              ? `on site ${clockText(off.from, me.zone)} to ${clockText(off.until, me.zone)}${open ? '; wrote something since, signs off again' : ', signed off'}`
              : 'not signed off yet'}
          </p>
        );
      })}
      {mine && !stale ? null : (
        <>
          {time('from', 'You were on site from')}
          {time('until', 'until')}
          <div className={classes.acts}>
            <Button
              size="xl"
              fullWidth
              onClick={() => void add({ do: 'signed_off', from: toInstant(times.from, me.zone), until: toInstant(times.until, me.zone) })}
            >
              I sign off: it is as I saw it
            </Button>
          </div>
        </>
      )}
    </section>
  );
}
