// Lines of what needs doing, each a link to where it is done.
import type { ReactNode } from 'react';
import { Link } from '@tanstack/react-router';
import type { HomeItem, HomeKey } from '@backsight/contract/home';
import { Day, When } from '../../ui/When.tsx';
import { addressOf, WORDS } from './words.ts';
import classes from './home.module.css';

export const Lines = ({ list, items }: { list: HomeKey; items: readonly HomeItem[] }): ReactNode => (
  <ul className={classes.list}>
    {items.map((item) => (
      <Line key={item.id} item={item} time={WORDS[list].time} />
    ))}
  </ul>
);

function Line({ item, time }: { item: HomeItem; time: string }): ReactNode {
  const to = addressOf(item.thing);
  return (
    <li>
      <span className={classes.what}>
        <Link to={to}>{item.title}</Link>
      </span>
      <span className={classes.about}>{item.detail}</span>
      <span className={classes.when}>
        {item.at || item.day ? time : null} {item.at ? <When at={item.at} /> : item.day ? <Day day={item.day} /> : null}
      </span>
    </li>
  );
}
