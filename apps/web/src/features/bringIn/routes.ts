// Addresses of the screens that bring records in from a spreadsheet.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { onlyFor, shell } from '../../app/roots.tsx';

const getParentRoute = () => shell;
const beforeLoad = onlyFor('owner', 'office_manager');

export const bringInScreens = [
  createRoute({
    getParentRoute,
    path: '/bring-in',
    beforeLoad,
    component: lazyRouteComponent(() => import('./BringInsPage.tsx'), 'BringInsPage'),
  }),
  createRoute({
    getParentRoute,
    path: '/bring-in/$bringInId',
    beforeLoad,
    component: lazyRouteComponent(() => import('./BringInPage.tsx'), 'BringInPage'),
  }),
] as const;
