// Address of the outbox.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';

export const mailScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/mail',
    component: lazyRouteComponent(() => import('./OutboxPage.tsx'), 'OutboxPage'),
  }),
] as const;
