// Address of the sign-in screen; `from` is where one was.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { root } from '../../app/roots.tsx';
import { inside, searchOf } from '../../app/search.ts';

export const signInScreens = [
  createRoute({
    getParentRoute: () => root,
    path: '/sign-in',
    validateSearch: searchOf({ from: inside }),
    component: lazyRouteComponent(() => import('./SignInPage.tsx'), 'SignInPage'),
  }),
] as const;
