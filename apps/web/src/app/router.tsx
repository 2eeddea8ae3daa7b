// Every screen of the app: one line for each area. The URL holds what a screen shows.
import { createRouter } from '@tanstack/react-router';
import { Loading } from '../ui/Loading.tsx';
import { homeScreens } from '../features/home/routes.ts';
import { peopleScreens } from '../features/people/routes.ts';
import { signInScreens } from '../features/signIn/routes.ts';
import { siteworkScreens } from '../features/sitework/routes.ts';
import { ScreenError } from './errorBoundary.tsx';
import { queryClient } from './queryClient.ts';
import { elsewhere, root, shell } from './roots.tsx';

const staffScreens = shell.addChildren([
  ...homeScreens,
  ...peopleScreens,
  ...siteworkScreens,
  elsewhere,
]);

export const router = createRouter({
  routeTree: root.addChildren([...signInScreens, staffScreens]),
  context: { queryClient },
  defaultErrorComponent: ScreenError,
  defaultPendingComponent: Loading,
  defaultPendingMs: 200,
  scrollRestoration: true,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
