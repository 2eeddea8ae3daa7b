// Addresses of the rows behind the owner's page, of cash ahead, and of claim windows.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { readDays, readEntriesSearch, readMonth, readOpenSearch, readWindowJobsSearch } from './ownerSearch.ts';

export const ownerScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/entries',
    validateSearch: readEntriesSearch,
    component: lazyRouteComponent(() => import('./MoneyEntriesPage.tsx'), 'MoneyEntriesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/open-callbacks',
    validateSearch: readOpenSearch,
    component: lazyRouteComponent(() => import('./CallbackRows.tsx'), 'OpenCallbacksPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/callbacks',
    validateSearch: readMonth,
    component: lazyRouteComponent(() => import('./CallbackRows.tsx'), 'MonthCallbacksPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/overrides',
    validateSearch: readDays,
    component: lazyRouteComponent(() => import('./WatchRows.tsx'), 'OverridesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/held-jobs',
    component: lazyRouteComponent(() => import('./WatchRows.tsx'), 'HeldJobsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/cash',
    component: lazyRouteComponent(() => import('./CashPage.tsx'), 'CashPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/windows',
    component: lazyRouteComponent(() => import('./WindowsPage.tsx'), 'WindowsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/windows/jobs',
    validateSearch: readWindowJobsSearch,
    component: lazyRouteComponent(() => import('./WindowJobsPage.tsx'), 'WindowJobsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/liabilities/unsigned-starts',
    validateSearch: readDays,
    component: lazyRouteComponent(() => import('./WindowJobsPage.tsx'), 'UnsignedStartsPage'),
  }),
] as const;
