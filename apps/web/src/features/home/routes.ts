// Address of the home screen.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const homeScreens = [
  createRoute({ getParentRoute: () => shell, path: '/', component: lazyRouteComponent(() => import('./HomePage.tsx'), 'HomePage') }),
] as const;
