// Address of the screen about personal data; `subject` and `id` name the person that it shows.
import { createRoute, lazyRouteComponent } from '@tanstack/react-router';
import { SUBJECTS } from '@backsight/contract/personal';
import { shell } from '../../app/roots.tsx';
import { keyOf, searchOf, text, uuid } from '../../app/search.ts';

export const personalScreens = [
  createRoute({
    getParentRoute: () => shell,
    path: '/personal-data',
    validateSearch: searchOf({ q: text(120), subject: keyOf(SUBJECTS), id: uuid }),
    component: lazyRouteComponent(() => import('./PersonalDataPage.tsx'), 'PersonalDataPage'),
  }),
] as const;
