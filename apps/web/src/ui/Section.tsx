// A part of a screen with a heading of its own and room for what one can do there.
import { useState, type ReactNode } from 'react';
import { Group, Title } from '@mantine/core';
import classes from './Section.module.css';

type Props = {
  title: string;
  actions?: ReactNode;
  /** On a phone only its heading is seen at first, so that a long screen begins with what is on it. */
  folds?: boolean;
  children: ReactNode;
};

export function Section({ title, actions, folds = false, children }: Props): ReactNode {
  const [wide] = useState(() => window.matchMedia('(min-width: 48em)').matches);
  if (folds && !wide)
    return (
      <section aria-label={title} className={classes.folding}>
        <details>
          <summary>
            <Title order={2}>{title}</Title>
          </summary>
          {actions ? <Group mb="sm">{actions}</Group> : null}
          {children}
        </details>
      </section>
    );
  return (
    <section aria-label={title} style={{ marginTop: '2rem' }}>
      <Group justify="space-between" mb="sm">
        <Title order={2}>{title}</Title>
        {actions}
      </Group>
      {children}
    </section>
  );
}
