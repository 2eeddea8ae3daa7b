// Addresses of signing in (`from` is where one was), of asking for a link and of choosing a password behind one.
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
  createRoute({
    getParentRoute: () => root,
    path: '/forgotten',
    component: lazyRouteComponent(() => import('./ForgottenPage.tsx'), 'ForgottenPage'),
  }),
  createRoute({
    getParentRoute: () => root,
    path: '/new-password/$token',
    component: lazyRouteComponent(() => import('./NewPasswordPage.tsx'), 'NewPasswordPage'),
  }),
] as const;
