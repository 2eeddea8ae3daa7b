// Address of the week.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { day, keyOf, searchOf } from '../../app/search.ts';

const weekSearch = searchOf({ from: day, day, as: keyOf({ list: true }) });

export const weekScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/week',
    validateSearch: weekSearch,
    component: lazyRouteComponent(() => import('./WeekPage.tsx'), 'WeekPage'),
  }),
] as const;
