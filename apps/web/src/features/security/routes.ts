// Address of the screen about one's own sign-in.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const securityScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/security',
    component: lazyRouteComponent(() => import('./SecurityPage.tsx'), 'SecurityPage'),
  }),
] as const;
