// Address of the audit trail; the URL holds the thing that it is narrowed to.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { shell } from '../../app/roots.tsx';

const search = z.object({ thingKind: z.string().optional().catch(undefined), thingId: z.uuid().optional().catch(undefined) });

export const auditScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/audit',
    validateSearch: search,
    component: lazyRouteComponent(() => import('./AuditPage.tsx'), 'AuditPage'),
  }),
] as const;
