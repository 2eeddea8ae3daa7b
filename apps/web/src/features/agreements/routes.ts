// Addresses of the screens about agreements: the texts, and the agreement of one job.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const agreementScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/agreement-texts',
    component: lazyRouteComponent(() => import('./TextsPage.tsx'), 'TextsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/jobs/$jobId/agreement',
    component: lazyRouteComponent(() => import('./AgreementPage.tsx'), 'AgreementPage'),
  }),
] as const;
