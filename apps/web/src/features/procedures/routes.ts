// Addresses of the screens of the procedure book.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { onlyFor, shell } from '../../app/roots.tsx';
import { searchOf, text, yes } from '../../app/search.ts';

const getParentRoute = () => shell;

export const proceduresScreens = [
  createRoute({ getParentRoute, path: '/procedures', component: lazyRouteComponent(() => import('./BookPage.tsx'), 'BookPage') }),
  createRoute({
    getParentRoute,
    path: '/procedures/coverage',
    validateSearch: searchOf({ state: text(10), gapsOnly: yes }),
    component: lazyRouteComponent(() => import('./CoveragePage.tsx'), 'CoveragePage'),
  }),
  createRoute({
    getParentRoute,
    path: '/procedures/new',
    beforeLoad: onlyFor('owner', 'lead_inspector'),
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
