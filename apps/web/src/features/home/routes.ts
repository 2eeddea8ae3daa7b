// Addresses of the home and of its lists.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const homeScreens = [
  createRoute({ getParentRoute: () => shell, path: '/', component: lazyRouteComponent(() => import('./HomePage.tsx'), 'HomePage') }),
  createRoute({
    getParentRoute: () => shell,
    path: '/to-do/$list',
    component: lazyRouteComponent(() => import('./ListPage.tsx'), 'ListPage'),
  }),
] as const;
