// One page before closing: what is not as it was found, who is still inside, answers that differ, and the sign-offs.
import type { ReactNode } from 'react';
import { placeOf } from '@backsight/domain/sitework/value';
import { sayToRestore, stillOpen } from '@backsight/domain/sitework/restore';
import { Button } from '@mantine/core';
import { ButtonLink } from '../../ui/links.tsx';
import { differingHere, itemName } from './recordModel.ts';
import { PhotosToCome } from './PhotosToCome.tsx';
import { Settle } from './Settle.tsx';
import { SignOff } from './SignOff.tsx';
import type { Site } from './SitePage.tsx';
import classes from './sitework.module.css';

type Props = Pick<Site, 'record' | 'acts' | 'add'>;

export function BeforeClosing({ record, acts, add }: Props): ReactNode {
  const open = stillOpen(acts);
  const changed = open.filter(({ kind }) => kind === 'change');
  const putAllBack = async () => {
    for (const { ref } of changed) if (!(await add({ do: 'put_back', of: ref }))) return;
  };
  return (
    <>
      {open.length === 0 ? (
        <div className={classes.notice}>
          <p>Everything that you changed is as you found it, or client and office were told.</p>
        </div>
      ) : (
        <div className={classes.caution}>
          <strong>Not as you found it: {open.length}. The visit cannot be closed yet.</strong>
          <ul className={classes.plain}>
            {open.map((one) => (
              <li key={one.ref} className={classes.restore}>
                {sayToRestore(one, (id) => itemName(record, id) ?? 'device')}
                {one.kind === 'change' ? (
                  <Button size="lg" onClick={() => void add({ do: 'put_back', of: one.ref })}>
                    Put back
                  </Button>
                ) : null}
              </li>
            ))}
          </ul>
          {changed.length > 1 ? (
            <Button size="xl" fullWidth mt="sm" onClick={() => void putAllBack()}>
              All {changed.length} that we changed are put back
            </Button>
          ) : null}
          <ButtonLink to="/records/$recordId/restore" params={{ recordId: record.id }} size="lg" variant="default">
            To the list: put back, or tell
          </ButtonLink>
        </div>
      )}
      <Differing record={record} acts={acts} add={add} />
      <PhotosToCome record={record} acts={acts} add={add} />
      <SignOff record={record} acts={acts} add={add} />
    </>
  );
}

function Differing({ record, acts, add }: Props): ReactNode {
  const open = differingHere(record, acts);
  if (open.length === 0) return null;
  return (
    <section>
      <h2 className={classes.day}>Your answers differ: {open.length}</h2>
      {open.map((place) => {
        const item = itemName(record, place.itemId);
        return (
          <div key={placeOf(place)} className={classes.row}>
            <h3>
              {place.title}
              {item ? ` (${item})` : ''}
            </h3>
            <Settle recordId={record.id} place={place} onSettle={(act, note) => void add(act, { note })} />
          </div>
        );
      })}
    </section>
  );
}
