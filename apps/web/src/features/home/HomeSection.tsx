// One list of the home: its first lines, each a link to where it is done, and the way to the rest.
import type { ReactNode } from 'react';
import { Link } from '@tanstack/react-router';
import type { HomeList } from '@backsight/contract/home';
import { Section } from '../../ui/Section.tsx';
import { Lines } from './Lines.tsx';
import { WORDS } from './words.ts';
import classes from './home.module.css';

export function HomeSection({ list, lines }: { list: HomeList; lines: number }): ReactNode {
  const { title } = WORDS[list.key];
  const shown = list.items.slice(0, lines);
  const rest = list.count - shown.length;
  return (
    <Section title={`${title} (${list.count})`}>
      <Lines list={list.key} items={shown} />
      {rest > 0 ? (
        <p className={classes.rest}>
          <Link to="/to-do/$list" params={{ list: list.key }} aria-label={`and ${rest} more: ${title.toLowerCase()}`}>
            and {rest} more
          </Link>
        </p>
      ) : null}
    </Section>
  );
}
