// One's own sign-in: password, second factor, and where one is signed in.
import { useState, type ReactNode } from 'react';
import { Alert } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMe } from '../../api/people.ts';
import { securityQuery } from '../../api/security.ts';
import { ButtonLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { FactorOff } from './FactorOff.tsx';
import { FactorOn } from './FactorOn.tsx';
import { RecoveryCodes } from './RecoveryCodes.tsx';
import { Sessions } from './Sessions.tsx';

export function SecurityPage(): ReactNode {
  const me = useMe();
  const security = useQuery(securityQuery);
  const [codes, setCodes] = useState<string[] | null>(null);
  return (
    <Page
      title="Signing in"
      width="narrow"
      about="Your password, the code of your phone that is asked for beside it, and where you are signed in."
      actions={
        me.factorNeeded ? null : (
          <ButtonLink to="/people/$personId/password" params={{ personId: me.id }} variant="default">
            Change your password
          </ButtonLink>
        )
      }
    >
      {me.factorNeeded ? (
        <Alert title="One thing before you go on" mb="md">
          Here a password alone lets nobody in, for it can be watched, guessed or lured out of somebody. Set up your phone as the second
          factor, once. It takes two minutes.
        </Alert>
      ) : null}
      <ProblemNote of={security.error} />
      {security.isPending ? <Loading /> : null}
      {codes ? <RecoveryCodes codes={codes} onKept={() => setCodes(null)} /> : null}
      {security.data && !codes ? (
        security.data.factor === 'on' ? (
          <FactorOn security={security.data} onCodes={setCodes} />
        ) : (
          <FactorOff onCodes={setCodes} />
        )
      ) : null}
      {security.data && !me.factorNeeded ? <Sessions sessions={security.data.sessions} /> : null}
    </Page>
  );
}
