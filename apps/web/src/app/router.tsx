// Every screen of the app: one line for each area. The URL holds what a screen shows.
import { createRouter } from '@tanstack/react-router';
import { Loading } from '../ui/Loading.tsx';
import { auditScreens } from '../features/audit/routes.ts';
import { firmScreens } from '../features/firm/routes.ts';
import { bringInScreens } from '../features/bringIn/routes.ts';
import { bookingScreens } from '../features/booking/routes.ts';
import { agreementScreens } from '../features/agreements/routes.ts';
import { callbackScreens } from '../features/callbacks/routes.ts';
import { feeScreens } from '../features/fees/routes.ts';
import { homeScreens } from '../features/home/routes.ts';
import { kitScreens } from '../features/kit/routes.ts';
import { jobsScreens } from '../features/jobs/routes.ts';
import { mailScreens } from '../features/mail/routes.ts';
import { moneyScreens } from '../features/money/routes.ts';
import { liabilityScreens } from '../features/liability/routes.ts';
import { planScreens } from '../features/plans/routes.ts';
import { peopleScreens } from '../features/people/routes.ts';
import { personalScreens } from '../features/personal/routes.ts';
import { securityScreens } from '../features/security/routes.ts';
import { setUpScreens } from '../features/setUp/routes.ts';
import { providerScreens } from '../features/providers/routes.ts';
import { proceduresScreens } from '../features/procedures/routes.ts';
import { signInScreens } from '../features/signIn/routes.ts';
import { stateRulesScreens } from '../features/stateRules/routes.ts';
import { textScreens } from '../features/texts/routes.ts';
import { siteworkScreens } from '../features/sitework/routes.ts';
import { travelScreens } from '../features/travel/routes.ts';
import { weekScreens } from '../features/week/routes.ts';
import { ScreenError } from './errorBoundary.tsx';
import { queryClient } from './queryClient.ts';
import { elsewhere, root, shell } from './roots.tsx';

const staffScreens = shell.addChildren([
  ...homeScreens,
  ...bookingScreens,
  ...jobsScreens,
  ...weekScreens,
  ...planScreens,
  ...travelScreens,
  ...peopleScreens,
  ...personalScreens,
  ...securityScreens,
  ...callbackScreens,
  ...liabilityScreens,
  ...proceduresScreens,
  ...kitScreens,
  ...providerScreens,
  ...firmScreens,
  ...bringInScreens,
  ...auditScreens,
  ...siteworkScreens,
  ...agreementScreens,
  ...textScreens,
  ...stateRulesScreens,
  ...moneyScreens,
  ...feeScreens,
  ...mailScreens,
  elsewhere,
]);

export const router = createRouter({
  routeTree: root.addChildren([...signInScreens, ...setUpScreens, staffScreens]),
  context: { queryClient },
  defaultErrorComponent: ScreenError,
  defaultPendingComponent: Loading,
  defaultPendingMs: 200,
  scrollRestoration: true,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
