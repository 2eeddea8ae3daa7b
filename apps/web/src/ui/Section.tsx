// A part of a screen with a heading of its own and room for what one can do there.
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { Group, Title } from '@mantine/core';
import { isAsked } from './partId.ts';
import classes from './Section.module.css';

type Props = {
  title: string;
  actions?: ReactNode;
  /** One line beside the heading: all there is to say of an empty part, or what a folded one holds. */
  brief?: ReactNode;
  /** Only its heading is seen at first: on a phone, so that a long screen begins with what is on it, or always. */
  folds?: boolean | 'always';
  children?: ReactNode;
};

export function Section({ title, actions, brief, folds = false, children }: Props): ReactNode {
  const [wide] = useState(() => window.matchMedia('(min-width: 48em)').matches);
  const part = useLanding(title);
  const heading = (
    <>
      <Title order={2}>{title}</Title>
      {brief ? <span className={classes.brief}>{brief}</span> : null}
    </>
  );
  if (folds === 'always' || (folds && !wide))
    return (
      <section ref={part} aria-label={title} className={classes.folding}>
        <details open={isAsked(title) || undefined}>
          <summary>{heading}</summary>
          {actions ? <Group mb="sm">{actions}</Group> : null}
          {children}
        </details>
      </section>
    );
  return (
    <section ref={part} aria-label={title} style={{ marginTop: 'var(--bs-space-9)' }}>
      <Group justify="space-between" mb={children ? 'sm' : 0}>
        <div className={classes.heading}>{heading}</div>
        {actions}
      </Group>
      {children}
    </section>
  );
}

/** Comes into sight and takes the focus where the address names it: the browser looked for it before it was there. */
function useLanding(title: string) {
  const part = useRef<HTMLElement>(null);
  useEffect(() => {
    if (!part.current || !isAsked(title)) return;
    part.current.tabIndex = -1;
    part.current.focus({ preventScroll: true });
    part.current.scrollIntoView({ block: 'start' });
  }, [title]);
  return part;
}
