// Addresses of the figures of steps.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { readStepsSearch } from './stepsSearch.ts';

export const stepScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/steps',
    validateSearch: readStepsSearch,
    component: lazyRouteComponent(() => import('./StepsPage.tsx'), 'StepsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/steps/$stepKey',
    component: lazyRouteComponent(() => import('./StepPage.tsx'), 'StepPage'),
  }),
] as const;
