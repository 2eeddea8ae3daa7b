// One screen: its title (also the browser's), what one can do here, and its content at a readable width.
import { useEffect, type ReactNode } from 'react';
import { Title } from '@mantine/core';
import { useMatches } from '@tanstack/react-router';
import { HELP } from './help.ts';
import classes from './Page.module.css';

type Props = {
  title: string;
  /** Line under the title: what this screen is for, in the trade's words; or what it shows now, and help.ts says what it is for. */
  about?: ReactNode;
  /** Buttons and links at the right of the title. */
  actions?: ReactNode;
  /** Text and forms are narrow, tables are wide; what is read side by side takes all there is. */
  width?: 'narrow' | 'wide' | 'full';
  children: ReactNode;
};

export function Page({ title, about, actions, width = 'wide', children }: Props): ReactNode {
  const help = useMatches({ select: (matches) => HELP[matches.at(-1)?.fullPath ?? ''] });
  useEffect(() => {
    document.title = `${title} · Backsight`;
  }, [title]);
  return (
    <div className={classes[width]}>
      <div className={classes.head}>
        <Title order={1}>{title}</Title>
        {about ? <p className={classes.about}>{about}</p> : null}
        {help ? <p className={classes.about}>{help}</p> : null}
        {actions ? <div className={classes.actions}>{actions}</div> : null}
      </div>
      {children}
    </div>
  );
}
