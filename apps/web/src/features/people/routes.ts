// Addresses of the screens about people: the list with its search and role, one person, adding one, one's own time, and the miles of everybody.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { ROLES } from '@backsight/contract/people';
import { shell } from '../../app/roots.tsx';
import { day, keyOf, searchOf, text, uuid, yes } from '../../app/search.ts';

const listSearch = searchOf({ q: text(), role: keyOf(ROLES), left: yes });
const mileageSearch = searchOf({ from: day, to: day, person: uuid });
const personSearch = searchOf({ change: yes });

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
