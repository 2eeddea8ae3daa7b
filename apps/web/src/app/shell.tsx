// The frame of every staff screen: skip link, demo banner, navigation, who is signed in.
import { useEffect, useRef, type ReactNode } from 'react';
import { Burger } from '@mantine/core';
import { useDisclosure } from '@mantine/hooks';
import { Outlet, useLocation } from '@tanstack/react-router';
import { useMe } from '../api/people.ts';
import { Drawer } from '../ui/Drawer.ts';
import { OnPhone } from '../ui/OnPhone.tsx';
import { SigningsWaiting } from '../ui/SigningsWaiting.tsx';
import { ZoneNote } from '../ui/ZoneNote.tsx';
import { GoTo } from './goTo/GoTo.tsx';
import { usePlaces } from './goTo/usePlaces.ts';
import { Navigation } from './shellNavigation.tsx';
import classes from './shell.module.css';

export function Shell(): ReactNode {
  const me = useMe();
  const [opened, menu] = useDisclosure(false);
  const main = useMainFocus(menu.close);
  usePlaces();
  return (
    <div className={classes.frame}>
      <a className={classes.skip} href="#main">
        Skip to the content
      </a>
      {me.demo ? (
        <section className={classes.demo} aria-label="Notice">
          Demo firm: everything here is invented
          {me.pastPercent === undefined ? null : ` - its past is still being loaded (${me.pastPercent} %)`}
        </section>
      ) : null}
      <section className={classes.bar} aria-label="Firm">
        <Burger opened={opened} onClick={menu.toggle} aria-label="Menu" aria-expanded={opened} size="sm" />
        <GoTo />
      </section>
      <Drawer
        opened={opened}
        onClose={menu.close}
        title={<span className={classes.firm}>{me.firm}</span>}
        size="17rem"
        closeButtonProps={{ 'aria-label': 'Close the menu' }}
      >
        <Navigation />
      </Drawer>
      <div className={classes.columns}>
        <aside className={classes.side}>
          <p className={classes.firm}>{me.firm}</p>
          <GoTo />
          <Navigation />
        </aside>
        <main id="main" ref={main} tabIndex={-1} className={classes.main}>
          <SigningsWaiting />
          <OnPhone />
          <ZoneNote />
          <Outlet />
        </main>
      </div>
    </div>
  );
}

/** After going to another screen the focus starts at its content, and `onMove` runs; changing the search of a URL moves nothing. */
function useMainFocus(onMove: () => void) {
  const main = useRef<HTMLElement>(null);
  const path = useLocation({ select: (location) => location.pathname });
  const shown = useRef(path);
  useEffect(() => {
    if (shown.current === path) return;
    shown.current = path;
    onMove();
    main.current?.focus({ preventScroll: true });
  }, [path, onMove]);
  return main;
}
