// The card that somebody sees who is not signed in: the mark, one heading, one form.
import { useEffect, type ReactNode } from 'react';
import { Title } from '@mantine/core';
import classes from './signIn.module.css';

/** `title` is the heading, and names the window. */
export function OutsideCard({ title, children }: { title: string; children: ReactNode }): ReactNode {
  useEffect(() => {
    document.title = `${title} · Backsight`;
  }, [title]);
  return (
    <main className={classes.page}>
      <div className={classes.card}>
        <p className={classes.mark}>Backsight</p>
        <Title order={1} mb="md">
          {title}
        </Title>
        {children}
      </div>
    </main>
  );
}
