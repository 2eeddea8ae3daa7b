// Addresses of the owner's page and the figures of steps.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { searchOf, text } from '../../app/search.ts';
import { readOutlookSearch } from './outlookSearch.ts';
import { ownerScreens } from './ownerRoutes.ts';
import { frequencyScreens } from './frequencyRoutes.ts';
import { readDevelopmentSearch } from './developmentSearch.ts';
import { stepScreens } from './stepRoutes.ts';

export const liabilityScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities',
    component: lazyRouteComponent(() => import('./OwnerPage.tsx'), 'OwnerPage'),
  }),
  ...ownerScreens,
  ...stepScreens,
  ...frequencyScreens,
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/files',
    validateSearch: searchOf({ quarter: text(7) }),
    component: lazyRouteComponent(() => import('./FilesPage.tsx'), 'FilesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/outlook',
    validateSearch: readOutlookSearch,
    component: lazyRouteComponent(() => import('./OutlookPage.tsx'), 'OutlookPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/development',
    validateSearch: readDevelopmentSearch,
    component: lazyRouteComponent(() => import('./DevelopmentPage.tsx'), 'DevelopmentPage'),
  }),
] as const;
