// The two routes that every screen hangs under: the root, and the shell, which only people who are signed in reach.
import { createRootRouteWithContext, createRoute, Outlet, redirect } from '@tanstack/react-router';
import type { QueryClient } from '@tanstack/react-query';
import type { Role } from '@backsight/contract/people';
import { setUpQuery } from '../api/firm.ts';
import { meQuery } from '../api/people.ts';
import { forOthers, ProblemError } from '../api/problemError.ts';
import { FullScreenError, NoSuchScreen } from './errorBoundary.tsx';
import { Shell } from './shell.tsx';

export const root = createRootRouteWithContext<{ queryClient: QueryClient }>()({ component: Outlet, errorComponent: FullScreenError });

/** Parent of every staff screen. */
export const shell = createRoute({
  getParentRoute: () => root,
  id: 'shell',
  component: Shell,
  errorComponent: FullScreenError,
  beforeLoad: async ({ context, location }) => {
    try {
      const { factorNeeded } = await context.queryClient.ensureQueryData(meQuery);
      if (factorNeeded && location.pathname !== '/security') throw redirect({ href: '/security' });
    } catch (error) {
      if (!(error instanceof ProblemError) || error.code !== 'not-signed-in') throw error;
      if ((await context.queryClient.ensureQueryData(setUpQuery)).needed) throw redirect({ href: '/set-up' });
      throw redirect({ href: `/sign-in${location.href === '/' ? '' : `?from=${encodeURIComponent(location.href)}`}` });
    }
  },
});

/** Of a screen that begins with a form: who may send it. A screen that reads first is refused by what it reads. */
export const onlyFor =
  (...who: Role[]) =>
  async ({ context }: { context: { queryClient: QueryClient } }): Promise<void> => {
    const { roles } = await context.queryClient.ensureQueryData(meQuery);
    if (!who.some((role) => roles.includes(role))) throw forOthers();
  };

/** Any other address: said inside the shell, so that the ways on are there. */
export const elsewhere = createRoute({ getParentRoute: () => shell, path: '$', component: NoSuchScreen });
