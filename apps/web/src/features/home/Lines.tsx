// Lines of what needs doing, each with the one thing to do about it: done here where it needs no more words or few, else the way to where it is done.
import { lazy, Suspense, useState, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { HomeItem, HomeKey } from '@backsight/contract/home';
import { answerDanger } from '../../api/callbackClocks.ts';
import { newId } from '../../api/ids.ts';
import { resumeMail, tryAgain } from '../../api/mail.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { partId } from '../../ui/partId.ts';
import { useOpener } from '../../ui/useOpener.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import type { Formed } from './LineForm.tsx';
import { addressOf, PART, WORDS } from './words.ts';
import classes from './home.module.css';

export const Lines = ({ list, items }: { list: HomeKey; items: readonly HomeItem[] }): ReactNode => (
  <ul className={classes.list}>
    {items.map((item) => (
      <Line key={item.id} list={list} item={item} />
    ))}
  </ul>
);

const LineForm = lazy(async () => ({ default: (await import('./LineForm.tsx')).LineForm }));
/** Lists of whose lines more is said than a press. */
const FORMED: ReadonlySet<HomeKey> = new Set<Formed>(['afterChecks', 'absencesAsked']);
const isFormed = (list: HomeKey): list is Formed => FORMED.has(list);

function Line({ list, item }: { list: HomeKey; item: HomeItem }): ReactNode {
  const { time, act: usual } = WORDS[list];
  const [open, setOpen] = useState(false);
  const to = addressOf(item.thing);
  const refused = item.thing.kind === 'mail_refused'; // trying again would be refused too
  const press = refused ? undefined : PRESS[list];
  const act = refused ? 'See why' : usual;
  return (
    <li>
      <span className={classes.what}>
        {press || isFormed(list) ? (
          <Link to={to} hash={PART[list] ? partId(PART[list]) : ''}>
            {item.title}
          </Link>
        ) : (
          item.title
        )}
      </span>
      <span>{item.detail}</span>
      <span className={classes.when}>
        {item.at || item.day ? time : null} {item.at ? <When at={item.at} /> : item.day ? <Day day={item.day} /> : null}
      </span>
      <span className={classes.act}>
        {press ? (
          <Press act={act} item={item} {...press} />
        ) : isFormed(list) ? (
          <Opener act={act} item={item} open={open} onOpen={() => setOpen(!open)} />
        ) : (
          <Link to={to} aria-label={`${act}: ${item.title}`}>
            {act}
          </Link>
        )}
      </span>
      {open && isFormed(list) ? (
        <Suspense fallback={<Loading />}>
          <LineForm list={list} item={item} done={() => setOpen(false)} />
        </Suspense>
      ) : null}
    </li>
  );
}

type Done = { send: (id: string) => Promise<unknown>; said: string };

/** What can be done with a press: nothing else has to be said or seen first. */
const PRESS: Partial<Record<HomeKey, Done>> = {
  dangerUnanswered: { send: answerDanger, said: 'You have it. Nobody else is alerted.' },
  mailPaused: { send: resumeMail, said: 'Mail leaves again.' },
  mailFailed: { send: (id) => tryAgain({ id, key: newId() }), said: 'It is sent again.' },
};

function Press({ act, item, send, said }: Done & { act: string; item: HomeItem }): ReactNode {
  const again = useSend(send, { refresh: ['home'], said });
  return (
    <>
      <Button
        size="compact-sm"
        variant="default"
        loading={again.isPending}
        aria-label={`${act}: ${item.title}`}
        onClick={() => again.mutate(item.thing.id)}
      >
        {act}
      </Button>
      <ProblemNote of={again.error} />
    </>
  );
}

type OpenerProps = { act: string; item: HomeItem; open: boolean; onOpen: () => void };

function Opener({ act, item, open, onOpen }: OpenerProps): ReactNode {
  const opener = useOpener(open);
  return (
    <Button ref={opener} size="compact-sm" variant="default" aria-expanded={open} aria-label={`${act}: ${item.title}`} onClick={onOpen}>
      {act}
    </Button>
  );
}
