// Address of the screen about the firm's kit.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const kitScreens = [
  createRoute({ getParentRoute: () => shell, path: '/kit', component: lazyRouteComponent(() => import('./KitPage.tsx'), 'KitPage') }),
] as const;
