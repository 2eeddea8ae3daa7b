// Address of the screen about the rules of states.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { shell } from '../../app/roots.tsx';
import { searchOf, uuid } from '../../app/search.ts';

export const stateRulesScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/state-rules',
    validateSearch: searchOf({ pack: uuid }),
    component: lazyRouteComponent(() => import('./RulesPage.tsx'), 'RulesPage'),
  }),
] as const;
