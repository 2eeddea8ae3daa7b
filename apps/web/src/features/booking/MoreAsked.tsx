// What callers ask less often, answered from what is on file: the standard of the state, insurance, the agreement.
import { Fragment, type ReactNode } from 'react';
import { useQuery } from '@tanstack/react-query';
import type { DeskRulesPage } from '@backsight/contract/jobs/desk';
import type { Firm } from '@backsight/contract/firm';
import type { Quote } from '@backsight/contract/jobs';
import { shortState } from '@backsight/domain/shared/stateOfZip';
import { certificatesQuery, insurerCertificateAddress } from '../../api/contacts.ts';
import { useMe } from '../../api/people.ts';
import { coverageQuery } from '../../api/procedures.ts';
import { minutesText } from '../../ui/minutes.ts';
import { dayText, todayIn } from '../../ui/time.ts';
import { AgreementSays } from './AgreementSays.tsx';
import { closedWords, hoursWords } from './answers.ts';
import type { Draft } from './draft.ts';
import { useHouseState } from './useHouseState.ts';
import desk from './desk.module.css';

type Props = { draft: Draft; quote: Quote; firm: Firm; rules: DeskRulesPage['rules'] | undefined };

export function MoreAsked({ draft, quote, firm, rules }: Props): ReactNode {
  const { zone } = useMe();
  const [office] = firm.offices;
  const closed = closedWords(firm, todayIn(zone));
  const answers: readonly (readonly [string, ReactNode])[] = [
    ['What is looked at?', <LookedAt draft={draft} quote={quote} />],
    ['What do you need from us?', neededWords(draft, rules)],
    ['Do you come out here?', comingWords(quote)],
    ...(office ? [['When does the office work?', `${hoursWords(office.hours)}.${closed ? ` Closed on ${closed}.` : ''}`] as const] : []),
    ['Is there a discount?', discountWords(quote)],
    ['Can the agent sign?', signingWords(firm)],
    ['Are you insured?', <Insured />],
    ['If something is missed?', `Tell us by your private link, by mail or at ${firm.phone}, if possible before it is repaired.`],
  ];
  return (
    <>
      <dl className={desk.asked}>
        {answers.map(([question, answer]) => (
          <Fragment key={question}>
            <dt>{question}</dt>
            <dd>{answer}</dd>
          </Fragment>
        ))}
      </dl>
      <AgreementSays facts={draft.facts} services={draft.services} />
    </>
  );
}

/** By the published standard of the state of the house, and what is ordered besides. */
function LookedAt({ draft, quote }: Pick<Props, 'draft' | 'quote'>): ReactNode {
  const { state } = useHouseState(draft);
  const { data, error } = useQuery({ ...coverageQuery(state || undefined), placeholderData: undefined, retry: false });
  const besides = quote.services.filter(({ ordered, base }) => ordered && !base).map(({ name }) => name);
  const more = besides.length > 0 ? ` Besides: ${besides.join(', ')}.` : '';
  if (error) return `No published standard of ${shortState(state)} is on file; the agreement says what is looked at.${more}`;
  if (!data) return '';
  const atHouse = data.rows.filter(({ duty, elsewhere }) => duty !== 'not_required' && elsewhere === null);
  const sections = [...new Set(atHouse.map(({ section }) => section))];
  return `What can be reached and seen, by ${data.standard}: ${sections.join(', ').toLowerCase()}.${more}`;
}

/** Who insures the firm, until when, with the paper that an agent asks for. */
function Insured(): ReactNode {
  const found = useQuery(certificatesQuery).data;
  if (!found) return '';
  if (found.length === 0) return 'No certificate of the insurer is on file.';
  return found.map(({ id, policy, endsOn }) => (
    <div key={id}>
      <a href={insurerCertificateAddress(id)} target="_blank" rel="noreferrer">
        {policy}
      </a>
      {`, until ${dayText(endsOn)}. It is sent from the page of the job.`}
    </div>
  ));
}

function neededWords({ services, tenant }: Draft, rules: Props['rules']): string {
  const radon =
    services.includes('radon') && rules ? [`doors and windows closed ${rules.radon.closedHouseHours} h before the radon test`] : [];
  const asked = ['a way in', 'water, electricity and fuel on', 'the agreement signed by every client', ...radon];
  return `${asked.join('; ')}${tenant ? '; notice to the tenant' : ''}. All of it may follow; each gets a day on the list of the job.`.replace(
    /^./,
    (letter) => letter.toUpperCase(),
  );
}

const comingWords = ({ travelMinutes }: Quote): string =>
  travelMinutes === null
    ? 'Choose the town, or "Another town (ZIP)" and say the ZIP code.'
    : `Yes, when a start is shown: ${minutesText(travelMinutes)} of driving from the office. What that costs is in the price.`;

function discountWords({ fee }: Quote): string {
  const given = fee.lines.filter(({ cents }) => cents < 0).map(({ label, reason }) => `${label} (${reason})`);
  const inPrice = given.length > 0 ? `In the price: ${given.join('; ')}.` : 'None applies by the fee schedule.';
  return `${inPrice} One by hand is given under the price, with its reason.`;
}

const signingWords = ({ everySigner }: Firm): string =>
  `No. ${everySigner ? 'Every client signs' : 'The client signs'} on a link of their own. An agent may book and hear the times; the report goes to others only with the client's written consent.`;
