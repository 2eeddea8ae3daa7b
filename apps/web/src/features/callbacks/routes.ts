// Addresses of the screens about callbacks.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { KINDS } from '@backsight/contract/callbacks';
import { shell } from '../../app/roots.tsx';
import { keyOf, searchOf, words } from '../../app/search.ts';
import { readListSearch } from './listSearch.ts';

const newSearch = searchOf({ job: words, kind: keyOf(KINDS) });

export const callbackScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/callbacks',
    validateSearch: readListSearch,
    component: lazyRouteComponent(() => import('./CallbacksPage.tsx'), 'CallbacksPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/callbacks/new',
    validateSearch: newSearch,
    component: lazyRouteComponent(() => import('./IntakePage.tsx'), 'IntakePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/safety-advice',
    component: lazyRouteComponent(() => import('./AdvicePage.tsx'), 'AdvicePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/callback-answers',
    component: lazyRouteComponent(() => import('./AnswersPage.tsx'), 'AnswersPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/callbacks/$callbackId',
    component: lazyRouteComponent(() => import('./CallbackPage.tsx'), 'CallbackPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/callbacks/$callbackId/evidence',
    component: lazyRouteComponent(() => import('./EvidencePage.tsx'), 'EvidencePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/accounts/$callbackId',
    component: lazyRouteComponent(() => import('./AccountPage.tsx'), 'AccountPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/corrective-actions',
    component: lazyRouteComponent(() => import('./ActionsPage.tsx'), 'ActionsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/corrective-actions/$actionId',
    component: lazyRouteComponent(() => import('./ActionPage.tsx'), 'ActionPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/danger/$callbackId',
    component: lazyRouteComponent(() => import('./DangerPage.tsx'), 'DangerPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/on-call',
    component: lazyRouteComponent(() => import('./OnCallPage.tsx'), 'OnCallPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/callback-clocks',
    component: lazyRouteComponent(() => import('./TermsPage.tsx'), 'TermsPage'),
  }),
] as const;
