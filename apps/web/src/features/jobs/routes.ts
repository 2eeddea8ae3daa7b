// Addresses of the screens about jobs: the list with its search, and one job.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { JOB_STATES } from '@backsight/contract/jobs';
import { shell } from '../../app/roots.tsx';
import { keyOf, searchOf, text, yes } from '../../app/search.ts';

const listSearch = searchOf({ q: text(), state: keyOf(JOB_STATES), open: yes, cursor: text() });

export const jobsScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs',
    validateSearch: listSearch,
    component: lazyRouteComponent(() => import('./JobsPage.tsx'), 'JobsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs/$jobId',
    component: lazyRouteComponent(() => import('./JobPage.tsx'), 'JobPage'),
  }),
] as const;
