// Addresses of the screens about agreement texts: the list, one text, its draft, and two side by side.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { searchOf, uuid } from '../../app/search.ts';

export const textScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/agreement-texts',
    component: lazyRouteComponent(() => import('./TextsPage.tsx'), 'TextsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/agreement-texts/$textId',
    component: lazyRouteComponent(() => import('./TextPage.tsx'), 'TextPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/agreement-texts/$textId/draft',
    component: lazyRouteComponent(() => import('./DraftPage.tsx'), 'DraftPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/agreement-texts/$textId/comparison',
    validateSearch: searchOf({ with: uuid }),
    component: lazyRouteComponent(() => import('./ComparePage.tsx'), 'ComparePage'),
  }),
] as const;
