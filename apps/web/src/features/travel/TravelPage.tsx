// Driving times: where they come from, what is said by hand, what the recorded drives say, and the road service.
import type { ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { TravelPage as Travel } from '@backsight/contract/schedule/travel';
import { travelQuery } from '../../api/travel.ts';
import { Details } from '../../ui/Details.tsx';
import { Loading } from '../../ui/Loading.tsx';
import { Page } from '../../ui/Page.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { Section } from '../../ui/Section.tsx';
import { When } from '../../ui/When.tsx';
import { Rules } from './Rules.tsx';
import { Speeds } from './Speeds.tsx';

export function TravelPage(): ReactNode {
  const travel = useQuery(travelQuery);
  return (
    <Page
      title="Driving times"
      about="What is said by hand comes first, then what the road service answers, then an estimate by distance. Parking, 3 minutes, is part of every drive."
    >
      <ProblemNote of={travel.error} />
      {travel.isPending ? <Loading /> : null}
      {travel.data ? (
        <>
          <Rules rules={travel.data.rules} towns={travel.data.towns} />
          <Speeds key={travel.data.version} travel={travel.data} />
          <RoadService service={travel.data.service} />
          <Places />
        </>
      ) : null}
    </Page>
  );
}

function RoadService({ service }: { service: Travel['service'] }): ReactNode {
  return (
    <Section title="Road service">
      {service === null ? (
        <p>
          None is set up, so drives are estimated by distance. An OSRM or Valhalla service of your own can answer them by road: settings
          TRAVEL_SERVICE and TRAVEL_URL of the installation.
        </p>
      ) : (
        <Details
          rows={[
            ['Service', service.name],
            [
              'Drives answered',
              `${service.answered.toLocaleString('en-US')}${service.noWay > 0 ? `, of these ${service.noWay} without a way by road` : ''}`,
            ],
            ['Asked last', service.filledAt ? <When at={service.filledAt} /> : 'never'],
            ['What went wrong', service.lastError ? `${service.lastError}. Estimates are used where an answer is missing.` : 'nothing'],
          ]}
        />
      )}
    </Section>
  );
}

/** The attribution that the license of the data asks for. */
function Places(): ReactNode {
  return (
    <Section title="Places by ZIP code">
      <p>
        A house whose ZIP code is none of your towns is placed in the middle of the ZIP code until its exact place is set on the job. The
        middles come from the npm package zipcodes (BSD license) and are those of{' '}
        <a href="https://www.geonames.org/" rel="noreferrer">
          GeoNames
        </a>
        , under{' '}
        <a href="https://creativecommons.org/licenses/by/4.0/" rel="noreferrer">
          CC BY 4.0
        </a>
        .
      </p>
    </Section>
  );
}
