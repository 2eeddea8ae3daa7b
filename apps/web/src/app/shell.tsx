// The frame of every staff screen: skip link, demo banner, navigation, who is signed in.
import { lazy, Suspense, useEffect, useRef, useState, type ReactNode } from 'react';
import { Burger } from '@mantine/core';
import { useDisclosure, useMediaQuery } from '@mantine/hooks';
import { Outlet, useLocation } from '@tanstack/react-router';
import { useMe } from '../api/people.ts';
import { Drawer } from '../ui/Drawer.ts';
import { useIdle } from '../ui/idle.ts';
import { OnPhone } from '../ui/OnPhone.tsx';
import { SigningsWaiting } from '../ui/SigningsWaiting.tsx';
import { ZoneNote } from '../ui/ZoneNote.tsx';
import { usePlaces } from './goTo/usePlaces.ts';
import goTo from './goTo/goTo.module.css';
import classes from './shell.module.css';

/** As in shell.module.css: from here on the menu stands at the side. */
const WIDE = '(min-width: 900px)';

/** Where the box will be: a screen is worked with before it comes, and also where it cannot come. */
const GoToPlace = (): ReactNode => (
  <div className={goTo.box}>
    <div className={goTo.place} aria-hidden="true">
      Go to ...
    </div>
  </div>
);

// Beside the screen itself, which a phone shows first; a wide window asks for them at once.
const navigation = () => import('./shellNavigation.tsx');
const box = () => import('./goTo/GoTo.tsx');
const Navigation = lazy(async () => ({ default: (await navigation()).Navigation }));
const GoTo = lazy(() =>
  box().then(
    ({ GoTo: Box }) => ({ default: Box }),
    () => ({ default: GoToPlace }),
  ),
);
if (window.matchMedia(WIDE).matches) void Promise.allSettled([navigation(), box()]);

export function Shell(): ReactNode {
  const me = useMe();
  const [opened, menu] = useDisclosure(false);
  const main = useMainFocus(menu.close);
  usePlaces();
  const wide = useMediaQuery(WIDE, undefined, { getInitialValueInEffect: false });
  const idle = useIdle();
  const words = useState(''); // here, for the box stands elsewhere when the width of the window changes, and keeps its words
  const goToBox =
    wide || idle ? (
      <Suspense fallback={<GoToPlace />}>
        <GoTo words={words} />
      </Suspense>
    ) : (
      <GoToPlace />
    );
  const areas = (
    <Suspense fallback={null}>
      <Navigation />
    </Suspense>
  );
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
        <Burger opened={opened} onClick={menu.toggle} aria-label="Menu" aria-expanded={opened} size="sm" className={classes.menu} />
        {wide ? null : goToBox}
      </section>
      <Drawer
        opened={opened}
        onClose={menu.close}
        title={<span className={classes.firm}>{me.firm}</span>}
        size="17rem"
        closeButtonProps={{ 'aria-label': 'Close the menu' }}
      >
        {areas}
      </Drawer>
      <div className={classes.columns}>
        {wide ? (
          <aside className={classes.side}>
            <p className={classes.firm}>{me.firm}</p>
            {goToBox}
            {areas}
          </aside>
        ) : null}
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
