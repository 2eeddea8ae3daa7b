// Address of the screen that books a job.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { onlyFor, shell } from '../../app/roots.tsx';
import { searchOf, uuid } from '../../app/search.ts';

export const bookingScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/book',
    beforeLoad: onlyFor('owner', 'office_manager', 'lead_inspector'),
    validateSearch: searchOf({ inquiry: uuid }),
    component: lazyRouteComponent(() => import('./BookPage.tsx'), 'BookPage'),
  }),
] as const;
