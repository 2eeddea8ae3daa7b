// Addresses of the screens about agreements: the agreement of one job, and signing it on this device.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const agreementScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs/$jobId/agreement',
    component: lazyRouteComponent(() => import('./AgreementPage.tsx'), 'AgreementPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs/$jobId/sign/$signerId',
    component: lazyRouteComponent(() => import('./DoorPage.tsx'), 'DoorPage'),
  }),
] as const;
