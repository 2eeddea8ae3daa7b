// Address of the set-up of a new firm.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { root } from '../../app/roots.tsx';

export const setUpScreens = [
  createRoute({ getParentRoute: () => root, path: '/set-up', component: lazyRouteComponent(() => import('./SetUpPage.tsx'), 'SetUpPage') }),
] as const;
