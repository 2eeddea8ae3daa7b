// Addresses of how often callbacks come, and of people beside what was to be expected.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { readSpanSearch } from './spanSearch.ts';

export const frequencyScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/frequency',
    validateSearch: readSpanSearch,
    component: lazyRouteComponent(() => import('./FrequencyPage.tsx'), 'FrequencyPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/people',
    validateSearch: readSpanSearch,
    component: lazyRouteComponent(() => import('./PeopleFiguresPage.tsx'), 'PeopleFiguresPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/my-figures',
    validateSearch: readSpanSearch,
    component: lazyRouteComponent(() => import('./OwnFiguresPage.tsx'), 'OwnFiguresPage'),
  }),
] as const;
