// Address of the audit trail; the URL holds the thing that it is narrowed to.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { searchOf, text, uuid } from '../../app/search.ts';

const search = searchOf({ thingKind: text(), thingId: uuid });

export const auditScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/audit',
    validateSearch: search,
    component: lazyRouteComponent(() => import('./AuditPage.tsx'), 'AuditPage'),
  }),
] as const;
