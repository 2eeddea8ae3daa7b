// Addresses of the site record: my day, starting, recording, sealing, and a job's record and report.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { day, searchOf, uuid, whole } from '../../app/search.ts';

const recordSearch = searchOf({ page: whole(0) });

const deviceSearch = searchOf({ device: uuid });

export const siteworkScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/my-day',
    component: lazyRouteComponent(() => import('./MyDayPage.tsx'), 'MyDayPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/visits/$visitId/start',
    component: lazyRouteComponent(() => import('./StartPage.tsx'), 'StartPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/visits/$visitId/ending',
    component: lazyRouteComponent(() => import('./EndingPage.tsx'), 'EndingPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs/$jobId/tests',
    component: lazyRouteComponent(() => import('./TestItemsPage.tsx'), 'TestItemsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/visits/$visitId/late',
    component: lazyRouteComponent(() => import('./LatePage.tsx'), 'LatePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId',
    validateSearch: recordSearch,
    component: lazyRouteComponent(() => import('./RecordPage.tsx'), 'RecordPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/danger',
    component: lazyRouteComponent(() => import('./DangerPage.tsx'), 'DangerPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/door',
    component: lazyRouteComponent(() => import('./DoorPage.tsx'), 'DoorPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/devices',
    validateSearch: deviceSearch,
    component: lazyRouteComponent(() => import('./DevicesPage.tsx'), 'DevicesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/restore',
    component: lazyRouteComponent(() => import('./RestorePage.tsx'), 'RestorePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/moisture',
    component: lazyRouteComponent(() => import('./MoisturePage.tsx'), 'MoisturePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/damage',
    component: lazyRouteComponent(() => import('./DamagePage.tsx'), 'DamagePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/seal',
    component: lazyRouteComponent(() => import('./SealPage.tsx'), 'SealPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/records/$recordId/sealed',
    component: lazyRouteComponent(() => import('./SealedPage.tsx'), 'SealedPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs/$jobId/record',
    component: lazyRouteComponent(() => import('./JobRecordPage.tsx'), 'JobRecordPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs/$jobId/report',
    component: lazyRouteComponent(() => import('./ReportPage.tsx'), 'ReportPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/double-looks',
    component: lazyRouteComponent(() => import('./DoubleLooksPage.tsx'), 'DoubleLooksPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/report-register',
    validateSearch: searchOf({ from: day, to: day }),
    component: lazyRouteComponent(() => import('./ReportRegisterPage.tsx'), 'ReportRegisterPage'),
  }),
] as const;
