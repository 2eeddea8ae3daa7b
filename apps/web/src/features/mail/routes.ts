// Addresses of the outbox, its settings and wordings, whom to call, and certificates.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { keyOf, searchOf, text, whole } from '../../app/search.ts';
import { STATES } from './words.ts';

const getParentRoute = () => shell;

export const mailScreens = [
  createRoute({
    getParentRoute,
    path: '/mail',
    validateSearch: searchOf({ state: keyOf(STATES) }),
    component: lazyRouteComponent(() => import('./OutboxPage.tsx'), 'OutboxPage'),
  }),
  createRoute({
    getParentRoute,
    path: '/mail/settings',
    component: lazyRouteComponent(() => import('./SettingsPage.tsx'), 'SettingsPage'),
  }),
  createRoute({
    getParentRoute,
    path: '/mail/wordings',
    validateSearch: searchOf({ kind: text(60) }),
    component: lazyRouteComponent(() => import('./WordingsPage.tsx'), 'WordingsPage'),
  }),
  createRoute({
    getParentRoute,
    path: '/contacts',
    validateSearch: searchOf({ days: whole(1) }),
    component: lazyRouteComponent(() => import('./ContactsPage.tsx'), 'ContactsPage'),
  }),
  createRoute({
    getParentRoute,
    path: '/certificates',
    component: lazyRouteComponent(() => import('./CertificatesPage.tsx'), 'CertificatesPage'),
  }),
] as const;
