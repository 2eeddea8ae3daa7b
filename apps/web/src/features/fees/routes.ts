// Addresses of the screens about what the firm charges, offers and pays.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { day, searchOf, uuid } from '../../app/search.ts';

export const feeScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/fee-schedules',
    component: lazyRouteComponent(() => import('./SchedulesPage.tsx'), 'SchedulesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/fee-schedules/$scheduleId',
    validateSearch: searchOf({ beside: uuid }),
    component: lazyRouteComponent(() => import('./SchedulePage.tsx'), 'SchedulePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/services',
    component: lazyRouteComponent(() => import('./ServicesPage.tsx'), 'ServicesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/inquiries',
    validateSearch: searchOf({ inquiry: uuid }),
    component: lazyRouteComponent(() => import('./InquiriesPage.tsx'), 'InquiriesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/waivers',
    component: lazyRouteComponent(() => import('./WaiversPage.tsx'), 'WaiversPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/pay',
    validateSearch: searchOf({ from: day, until: day }),
    component: lazyRouteComponent(() => import('./PayPage.tsx'), 'PayPage'),
  }),
] as const;
