// Address of the screen that books a job.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { shell } from '../../app/roots.tsx';

export const bookingScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/book',
    validateSearch: z.object({ inquiry: z.uuid().optional().catch(undefined) }),
    component: lazyRouteComponent(() => import('./BookPage.tsx'), 'BookPage'),
  }),
] as const;
