// Address of the week.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { shell } from '../../app/roots.tsx';

const weekSearch = z.object({ from: z.iso.date().optional().catch(undefined), day: z.iso.date().optional().catch(undefined) });

export const weekScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/week',
    validateSearch: weekSearch,
    component: lazyRouteComponent(() => import('./WeekPage.tsx'), 'WeekPage'),
  }),
] as const;
