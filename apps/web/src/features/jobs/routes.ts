// Addresses of the screens about jobs: the list with its search, and one job.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { jobState } from '@backsight/contract/jobs';
import { shell } from '../../app/roots.tsx';

const listSearch = z.object({
  q: z.string().optional().catch(undefined),
  state: jobState.optional().catch(undefined),
  open: z.boolean().optional().catch(undefined),
  cursor: z.string().optional().catch(undefined),
});

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
