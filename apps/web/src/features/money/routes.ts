// Addresses of the screens about money: who owes what, invoices, terms, statements, rules, and the books.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { day, searchOf, text, whole } from '../../app/search.ts';

const words = text(80);
const ledgerSearch = searchOf({ until: day });
const entriesSearch = searchOf({ account: words, kind: words, from: day, to: day, job: whole(1), words });

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
    path: '/jobs/$jobId/money',
    component: lazyRouteComponent(() => import('./JobMoneyPage.tsx'), 'JobMoneyPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/statements/$partyId',
    validateSearch: searchOf({ from: day, to: day }),
    component: lazyRouteComponent(() => import('./StatementPage.tsx'), 'StatementPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/money-rules',
    component: lazyRouteComponent(() => import('./MoneyRulesPage.tsx'), 'MoneyRulesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/ledger',
    validateSearch: ledgerSearch,
    component: lazyRouteComponent(() => import('./LedgerPage.tsx'), 'LedgerPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/ledger/entries',
    validateSearch: entriesSearch,
    component: lazyRouteComponent(() => import('./EntriesPage.tsx'), 'EntriesPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/ledger/accounts',
    component: lazyRouteComponent(() => import('./AccountsPage.tsx'), 'AccountsPage'),
  }),
  createRoute({
    getParentRoute: () => shell,
    path: '/ledger/books',
    component: lazyRouteComponent(() => import('./BooksPage.tsx'), 'BooksPage'),
  }),
] as const;
