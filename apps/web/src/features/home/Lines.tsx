// Lines of what needs doing, each with the one thing to do about it: done here where it needs no more words, else the way to where it is done.
import type { ReactNode } from 'react';
import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import type { HomeItem, HomeKey } from '@backsight/contract/home';
import { newId } from '../../api/ids.ts';
import { resumeMail, tryAgain } from '../../api/mail.ts';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { partId } from '../../ui/partId.ts';
import { useSend } from '../../ui/useSend.ts';
import { Day, When } from '../../ui/When.tsx';
import { addressOf, PART, WORDS } from './words.ts';
import classes from './home.module.css';

export const Lines = ({ list, items }: { list: HomeKey; items: readonly HomeItem[] }): ReactNode => (
  <ul className={classes.list}>
    {items.map((item) => (
      <Line key={item.id} list={list} item={item} />
    ))}
  </ul>
);

function Line({ list, item }: { list: HomeKey; item: HomeItem }): ReactNode {
  const { time, act: usual } = WORDS[list];
  const to = addressOf(item.thing);
  const refused = item.thing.kind === 'mail_refused'; // trying again would be refused too
  const here = refused ? undefined : HERE[list];
  const act = refused ? 'See why' : usual;
  return (
    <li>
      <span className={classes.what}>{here ? <Link to={to}>{item.title}</Link> : item.title}</span>
      <span>{item.detail}</span>
      <span className={classes.when}>
        {item.at || item.day ? time : null} {item.at ? <When at={item.at} /> : item.day ? <Day day={item.day} /> : null}
      </span>
      <span className={classes.act}>
        {here ? (
          <Here act={act} item={item} {...here} />
        ) : (
          <Link to={to} hash={PART[list] ? partId(PART[list]) : ''} aria-label={`${act}: ${item.title}`}>
            {act}
          </Link>
        )}
      </span>
    </li>
  );
}

type Done = { send: (id: string) => Promise<unknown>; said: string };

/** What can be done with a press: nothing else has to be said or seen first. */
const HERE: Partial<Record<HomeKey, Done>> = {
  mailPaused: { send: resumeMail, said: 'Mail leaves again.' },
  mailFailed: { send: (id) => tryAgain({ id, key: newId() }), said: 'It is sent again.' },
};

function Here({ act, item, send, said }: Done & { act: string; item: HomeItem }): ReactNode {
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
