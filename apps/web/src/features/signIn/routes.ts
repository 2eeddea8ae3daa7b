// Address of the sign-in screen; `from` is where one was.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { root } from '../../app/roots.tsx';

/** Only addresses of this app: a link must not lead elsewhere after signing in. */
const inside = z
  .string()
  .regex(/^\/(?![/\\])/)
  .optional()
  .catch(undefined);

export const signInScreens = [
  createRoute({
    getParentRoute: () => root,
    path: '/sign-in',
    validateSearch: z.object({ from: inside }),
    component: lazyRouteComponent(() => import('./SignInPage.tsx'), 'SignInPage'),
  }),
] as const;
