// Address of the screen about driving times.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const travelScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/travel',
    component: lazyRouteComponent(() => import('./TravelPage.tsx'), 'TravelPage'),
  }),
] as const;
