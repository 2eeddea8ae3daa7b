// Addresses of the screens about money: who owes what, one invoice, the ledger.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { shell } from '../../app/roots.tsx';

const ledgerSearch = z.object({ until: z.iso.date().optional().catch(undefined) });

export const moneyScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/receivables',
    component: lazyRouteComponent(() => import('./ReceivablesPage.tsx'), 'ReceivablesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/invoices/$invoiceId',
    component: lazyRouteComponent(() => import('./InvoicePage.tsx'), 'InvoicePage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/ledger',
    validateSearch: ledgerSearch,
    component: lazyRouteComponent(() => import('./LedgerPage.tsx'), 'LedgerPage'),
  }),
] as const;
