// The public page on how a complaint is handled (ISO/IEC 17025:2017, 7.9.2: the process is described and can be had by anybody).
import type { Process } from '@backsight/usecases/callbacks/readProcess';
import { html, pageOf } from './html.ts';

const UNITS: Record<string, [string, string]> = {
  businessDays: ['working day', 'working days'],
  days: ['day', 'days'],
  businessMinutes: ['minute of our office hours', 'minutes of our office hours'],
  minutes: ['minute', 'minutes'],
};
const within = ({ amount, unit }: { amount: number; unit: string }): string => `${amount} ${UNITS[unit]![amount === 1 ? 0 : 1]}`;

/** The process in plain words, with the firm's own times. */
export const processPage = (p: NonNullable<Process>): string =>
  pageOf(
    'How we handle a complaint',
    html`<p class="firm">${p.firm}</p>
      <h1>How we handle a complaint</h1>
      <p>
        Did we miss something, say something wrong, or break something? Are you unhappy with how we worked? Tell us. It costs you nothing.
      </p>
      <div class="note" role="note">
        <p>Is anybody in danger? Leave, and call 911. We are no emergency service.</p>
      </div>
      <h2>How to tell us</h2>
      <p>
        Call <a href="tel:${p.phone}">${p.phone}</a>, write to <a href="mailto:${p.email}">${p.email}</a>, or send a letter to ${p.address}.
        Say which house it is, what you noticed and when, and what you would like us to do. Anybody may complain, not only our client.
      </p>
      <p>
        Please do not repair before we or your insurer have seen it, unless to prevent danger or more damage: then photograph first. To
        report a problem does not mean that we accept responsibility.
      </p>
      <h2>What happens then, and when</h2>
      <ol>
        <li>You get a number, and hear from us within ${within(p.terms.acknowledge)}. You may ask at any time how far we are.</li>
        <li>
          Within ${within(p.terms.triage)} we judge how grave it is and what must be done at once, and name who looks into it. Danger goes
          first.
        </li>
        <li>
          We look at what was recorded on site and at what the report says. Where we must see it, we agree a day with you, as a rule within
          ${within(p.terms.visit)}.
        </li>
        <li>
          We tell you in writing what we decided and why, within ${within(p.terms.decision)} after your report. If it takes longer, we say
          so.
        </li>
        <li>When what we promised is done, we close it and tell you. About ${p.checkDays} days later we ask whether it held.</li>
      </ol>
      <p>While we wait for you, for example for a day that suits you, these times stand still.</p>
      <h2>Who decides</h2>
      <p>
        A lead inspector or an owner of the firm decides. Was that person on the job? Then somebody who was not there must agree. What
        happened is traced to the step of our work, never to blame a person.
      </p>
      <h2>If you do not agree</h2>
      <p>
        Within ${p.appealDays} days after our decision you may ask an owner to look at it again. Use the link in our letter, or call or
        write to us. An owner who did not decide it and was not on the job looks at it, where we have one; else the letter says so and names
        who from outside looked at it. You hear the result in writing within ${p.decideDays} days.
      </p>
      <p>Your other rights stay as they are. You may go to the license board or to a court at any time.</p>`,
  );
