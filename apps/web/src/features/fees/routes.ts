// Addresses of the screens about what the firm charges, offers and pays.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const feeScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/fee-schedules',
    component: lazyRouteComponent(() => import('./SchedulesPage.tsx'), 'SchedulesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/fee-schedules/$scheduleId',
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
    component: lazyRouteComponent(() => import('./PayPage.tsx'), 'PayPage'),
  }),
] as const;
