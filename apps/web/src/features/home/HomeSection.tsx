// One list of the home: its lines, each a link to where it is done, and the way to the rest.
import type { ReactNode } from 'react';
import { Link } from '@tanstack/react-router';
import type { HomeItem, HomeList } from '@backsight/contract/home';
import { Section } from '../../ui/Section.tsx';
import { Day, When } from '../../ui/When.tsx';
import { addressOf, WORDS } from './words.ts';
import classes from './home.module.css';

export function HomeSection({ list }: { list: HomeList }): ReactNode {
  const { title, all, time } = WORDS[list.key];
  const rest = list.count - list.items.length;
  return (
    <Section title={`${title} (${list.count})`}>
      <ul className={classes.list}>
        {list.items.map((item) => (
          <Line key={item.id} item={item} time={time} />
        ))}
      </ul>
      {rest > 0 ? <p className={classes.rest}>{all ? <Link to={all}>Show all {list.count}</Link> : `and ${rest} more`}</p> : null}
    </Section>
  );
}

function Line({ item, time }: { item: HomeItem; time: string }): ReactNode {
  const to = addressOf(item.thing);
  return (
    <li>
      <span className={classes.what}>
        <Link to={to}>{item.title}</Link>
      </span>
      <span className={classes.about}>{item.detail}</span>
      <span className={classes.when}>
        {time} {item.at ? <When at={item.at} /> : item.day ? <Day day={item.day} /> : null}
      </span>
    </li>
  );
}
