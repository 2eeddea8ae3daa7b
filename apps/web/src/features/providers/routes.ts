// Address of the screen about outside providers.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const providerScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/providers',
    component: lazyRouteComponent(() => import('./ProvidersPage.tsx'), 'ProvidersPage'),
  }),
] as const;
