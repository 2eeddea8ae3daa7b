// Addresses of the screens of the procedure book.
import { z } from 'zod';
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

const getParentRoute = () => shell;

export const proceduresScreens = [
  createRoute({ getParentRoute, path: '/procedures', component: lazyRouteComponent(() => import('./BookPage.tsx'), 'BookPage') }),
  createRoute({
    getParentRoute,
    path: '/procedures/coverage',
    validateSearch: z.object({
      state: z.string().max(10).optional().catch(undefined),
      gapsOnly: z.boolean().default(false).catch(false),
    }),
    component: lazyRouteComponent(() => import('./CoveragePage.tsx'), 'CoveragePage'),
  }),
  createRoute({
    getParentRoute,
    path: '/procedures/new',
    component: lazyRouteComponent(() => import('./NewProcedurePage.tsx'), 'NewProcedurePage'),
  }),
  createRoute({
    getParentRoute,
    path: '/procedures/$procedureId',
    component: lazyRouteComponent(() => import('./ProcedurePage.tsx'), 'ProcedurePage'),
  }),
  createRoute({
    getParentRoute,
    path: '/procedures/revision/$revisionId',
    component: lazyRouteComponent(() => import('./RevisionPage.tsx'), 'RevisionPage'),
  }),
  createRoute({
    getParentRoute,
    path: '/procedures/draft/$revisionId',
    component: lazyRouteComponent(() => import('./DraftPage.tsx'), 'DraftPage'),
  }),
  createRoute({
    getParentRoute,
    path: '/procedures/table/$revisionId',
    component: lazyRouteComponent(() => import('./TablePage.tsx'), 'TablePage'),
  }),
  createRoute({
    getParentRoute,
    path: '/procedures/acknowledge/$revisionId',
    component: lazyRouteComponent(() => import('./AcknowledgePage.tsx'), 'AcknowledgePage'),
  }),
] as const;
