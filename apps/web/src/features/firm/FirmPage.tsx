// The firm: settings, office, closed days, insurance, and who may approve how much.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import { authorityQuery, firmQuery } from '../../api/firm.ts';
import { useMe } from '../../api/people.ts';
import { TextLink } from '../../ui/links.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { AfterRules } from './AfterRules.tsx';
import { ClosedDays } from './ClosedDays.tsx';
import { DeskRules } from './DeskRules.tsx';
import { ErrorKinds } from './ErrorKinds.tsx';
import { Limits } from './Limits.tsx';
import { Loans } from './Loans.tsx';
import { OnCallNote } from './OnCallNote.tsx';
import { OfficeForm } from './OfficeForm.tsx';
import { Policies } from './Policies.tsx';
import { SettingsForm } from './SettingsForm.tsx';
import classes from './firm.module.css';

export function FirmPage(): ReactNode {
  const me = useMe();
  const firm = useQuery(firmQuery);
  const seesAuthority = me.roles.includes('owner') || me.roles.includes('lead_inspector');
  const authority = useQuery({ ...authorityQuery, enabled: seesAuthority });
  const owner = me.roles.includes('owner');
  return (
    <Page title="Firm" about="How the firm is reached, when it works, what it is insured for, and who may approve how much.">
      <ProblemNote of={firm.error ?? authority.error} />
      {firm.isPending ? <Loading /> : null}
      <div className={classes.columns}>
        {firm.data ? <SettingsForm key={firm.data.version} firm={firm.data} mayChange={owner} /> : null}
        {owner ? firm.data?.offices.map((office) => <OfficeForm key={office.id} office={office} />) : null}
        {firm.data ? <ClosedDays days={firm.data.closedDays} mayChange={owner || me.roles.includes('office_manager')} /> : null}
        {owner ? <DeskRules /> : null}
        {owner ? <AfterRules /> : null}
        <OnCallNote desk={seesAuthority || me.roles.includes('office_manager')} />
      </div>
      {authority.data ? (
        <>
          <Policies policies={authority.data.policies} mayAdd={owner} />
          <Limits limits={authority.data.limits} mayChange={owner} />
          <Loans loans={authority.data.loans} />
          <ErrorKinds mayChange={owner} />
          {owner ? (
            <p>
              <TextLink to="/personal-data">Personal data</TextLink>: for how long records are kept, what is due to go, and who asks for
              theirs.
            </p>
          ) : null}
        </>
      ) : null}
    </Page>
  );
}
