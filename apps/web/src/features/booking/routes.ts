// Address of the screen that books a job.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const bookingScreens = [
  createRoute({ getParentRoute: () => shell, path: '/book', component: lazyRouteComponent(() => import('./BookPage.tsx'), 'BookPage') }),
] as const;
