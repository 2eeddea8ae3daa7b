// Address of the screen about the firm itself.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const firmScreens = [
  createRoute({ getParentRoute: () => shell, path: '/firm', component: lazyRouteComponent(() => import('./FirmPage.tsx'), 'FirmPage') }),
] as const;
