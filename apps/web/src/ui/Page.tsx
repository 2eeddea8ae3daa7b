// One screen: its title (also the browser's), what one can do here, and its content at a readable width.
import { lazy, Suspense, useEffect, type ReactNode } from 'react';
import { Title } from '@mantine/core';
import { useMatches } from '@tanstack/react-router';
import { SEARCHED_LISTS } from '@backsight/contract/people/keptSearches';
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
  /** Whether a list shows here, where its address is that of one: what says why it does not is none. */
  listed?: boolean;
  children: ReactNode;
};

const KeptSearches = lazy(() => import('./KeptSearches.tsx'));

export function Page({ title, about, actions, width = 'wide', listed = true, children }: Props): ReactNode {
  const at: string = useMatches({ select: (matches) => matches.at(-1)?.fullPath ?? '' });
  const help = HELP[at];
  const list = SEARCHED_LISTS.find((one) => one === at);
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
      {list && listed ? (
        <div className={classes.kept}>
          <Suspense fallback={null}>
            <KeptSearches list={list} />
          </Suspense>
        </div>
      ) : null}
      {children}
    </div>
  );
}
