// Address of the screen about the rules of states.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { z } from 'zod';
import { shell } from '../../app/roots.tsx';

export const stateRulesScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/state-rules',
    validateSearch: z.object({ pack: z.uuid().optional().catch(undefined) }),
    component: lazyRouteComponent(() => import('./RulesPage.tsx'), 'RulesPage'),
  }),
] as const;
