// Address of the screen about the firm's kit.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { searchOf, words } from '../../app/search.ts';

export const kitScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/kit',
    validateSearch: searchOf({ q: words }),
    component: lazyRouteComponent(() => import('./KitPage.tsx'), 'KitPage'),
  }),
] as const;
