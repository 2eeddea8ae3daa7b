// Addresses of the screens about plans.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { day, searchOf } from '../../app/search.ts';

export const planScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/day-plan',
    validateSearch: searchOf({ from: day }),
    component: lazyRouteComponent(() => import('./DayPlanPage.tsx'), 'DayPlanPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/day-plan/$planId',
    component: lazyRouteComponent(() => import('./PlanPage.tsx'), 'PlanPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/sick-call',
    component: lazyRouteComponent(() => import('./SickCallPage.tsx'), 'SickCallPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/weather',
    component: lazyRouteComponent(() => import('./WeatherPage.tsx'), 'WeatherPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/what-if',
    component: lazyRouteComponent(() => import('./WhatIfPage.tsx'), 'WhatIfPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/what-if/$planId',
    component: lazyRouteComponent(() => import('./WhatIfAnswerPage.tsx'), 'WhatIfAnswerPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/visits/$visitId/kept',
    component: lazyRouteComponent(() => import('./KeptPage.tsx'), 'KeptPage'),
  }),
] as const;
