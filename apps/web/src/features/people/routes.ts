// Addresses of the screens about people: the list with its search and role, one person, adding one, one's own time, and the miles of everybody.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { roleSchema } from '@backsight/contract/people';
import { shell } from '../../app/roots.tsx';

const listSearch = z.object({
  q: z.string().optional().catch(undefined),
  role: roleSchema.optional().catch(undefined),
  left: z.boolean().optional().catch(undefined),
});
const mileageSearch = z.object({ from: z.iso.date().optional().catch(undefined), to: z.iso.date().optional().catch(undefined) });
const personSearch = z.object({ change: z.boolean().optional().catch(undefined) });

export const peopleScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/people',
    validateSearch: listSearch,
    component: lazyRouteComponent(() => import('./PeoplePage.tsx'), 'PeoplePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/people/new',
    component: lazyRouteComponent(() => import('./AddPersonPage.tsx'), 'AddPersonPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/people/$personId',
    validateSearch: personSearch,
    component: lazyRouteComponent(() => import('./PersonPage.tsx'), 'PersonPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/people/$personId/password',
    component: lazyRouteComponent(() => import('./PasswordPage.tsx'), 'PasswordPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/my-time',
    component: lazyRouteComponent(() => import('./MyTimePage.tsx'), 'MyTimePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/mileage',
    validateSearch: mileageSearch,
    component: lazyRouteComponent(() => import('./mileage/MileagePage.tsx'), 'MileagePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/pairing',
    component: lazyRouteComponent(() => import('./PairingPage.tsx'), 'PairingPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/lapsing',
    component: lazyRouteComponent(() => import('./LapsingPage.tsx'), 'LapsingPage'),
  }),
] as const;
