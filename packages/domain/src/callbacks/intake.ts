// Taking a callback in: who speaks, of what kind it is, and what binds them.
import type { BusinessCalendar } from '../shared/calendar.ts';
import { accept, refuse, type Outcome, type Refusal, type Warning } from '../shared/outcome.ts';
import type { Role } from '../people/roles.ts';
import { dueTimes, type DueTimes } from './clocks.ts';
import { policyFor, policyWarnings, type Policy } from './policy.ts';
import { isLegal, type Kind, type Speaker } from './words.ts';

/** `signedBy` are the parties who signed the job's agreement; `inspectedOn` is null while nobody has been there. */
export type IntakeFacts = {
  inspectedOn: string | null;
  signedBy: readonly string[];
  parties: readonly string[];
  policies: readonly Policy[];
  calendar: BusinessCalendar;
  onCallPhone: string;
  roles: readonly Role[];
  today: string;
  earlierOfProperty: readonly number[];
};

/** Somebody who speaks and stands on no list of the job: an attorney, a later buyer, a neighbor. */
export type OutsideParty = { id: string; name: string; email: string | null; phone: string | null };

export type Intake = {
  speaker: Speaker;
  kind: Kind;
  partyId?: string;
  newParty?: OutsideParty;
  safety: boolean;
  receivedAt: string;
  discoveredOn?: string;
  servedOn?: string;
  serviceWay?: string;
  deadlineOn?: string;
  ownerOnly?: boolean;
};

export type Taken = DueTimes & { binding: boolean; ownerOnly: boolean; policyId: string | null };

const OFFICE: readonly Role[] = ['owner', 'lead_inspector', 'office_manager'];
const FROM_THE_SITE: readonly Kind[] = ['near_miss', 'damage_or_injury'];

const roleRule = ({ roles }: IntakeFacts, { kind }: Intake): Refusal | null =>
  roles.some((role) => OFFICE.includes(role)) || FROM_THE_SITE.includes(kind) ? null : refuse('kind-not-for-role', {}, 'kind');

const visitedRule = ({ inspectedOn }: IntakeFacts, { kind }: Intake): Refusal | null =>
  inspectedOn === null && ['missed', 'damage_or_injury', 'near_miss', 'question'].includes(kind)
    ? refuse('not-visited-yet', {}, 'jobId')
    : null;

const partyRule = ({ parties }: IntakeFacts, { partyId, newParty }: Intake): Refusal | null =>
  partyId !== undefined && newParty !== undefined
    ? refuse('two-who-speak', {}, 'newParty')
    : partyId !== undefined && !parties.includes(partyId)
      ? refuse('party-of-another-job', {}, 'partyId')
      : null;

function dayRule({ inspectedOn, today }: IntakeFacts, { discoveredOn, servedOn }: Intake): Refusal | null {
  for (const [field, day] of [
    ['discoveredOn', discoveredOn],
    ['servedOn', servedOn],
  ] as const) {
    if (day === undefined) continue;
    if (day > today) return refuse('in-the-future', { day }, field);
    if (inspectedOn !== null && day < inspectedOn) return refuse('before-the-inspection', { day, inspectedOn }, field);
  }
  return null;
}

function paperRule(_: IntakeFacts, command: Intake): Refusal | null {
  if (!isLegal(command.kind)) return null;
  const needed = [
    ['servedOn', 'day of service'],
    ['serviceWay', 'way of service'],
    ['deadlineOn', 'deadline'],
  ] as const;
  const missing = needed.filter(([field]) => !command[field]);
  if (missing.length > 0) return refuse('legal-paper-needs', { missing: missing.map(([, words]) => words) }, missing[0]![0]);
  const { servedOn, deadlineOn } = command;
  return deadlineOn! < servedOn! ? refuse('deadline-before-service', { servedOn: servedOn!, deadlineOn: deadlineOn! }, 'deadlineOn') : null;
}

const RULES = [roleRule, visitedRule, partyRule, dayRule, paperRule];

/** Takes it in, or says which rule refuses it. `binding`: cap, notice clause and claim window of the agreement bind only who signed it. */
export function decideIntake(facts: IntakeFacts, command: Intake): Outcome<Taken> {
  const no = RULES.map((rule) => rule(facts, command)).find((refusal) => refusal !== null);
  if (no) return no;
  const policy = needsPolicy(command.kind)
    ? policyFor(command.kind, facts.policies, { receivedOn: facts.today, inspectedOn: facts.inspectedOn ?? facts.today })
    : null;
  const taken: Taken = {
    ...dueTimes(command.receivedAt, facts.calendar),
    policyId: policy?.id ?? null,
    binding: command.partyId !== undefined && facts.signedBy.includes(command.partyId),
    ownerOnly: command.ownerOnly ?? isLegal(command.kind),
  };
  return accept(taken, warningsOf(facts, command, policy));
}

const needsPolicy = (kind: Kind): boolean => kind !== 'question' && kind !== 'near_miss';

function warningsOf(facts: IntakeFacts, command: Intake, policy: Policy | null): Warning[] {
  const found: Warning[] = [];
  if (command.safety)
    found.push({ code: 'safety', text: `Somebody may be in danger. Call the on-call person now: ${facts.onCallPhone}. ${SAFETY_ADVICE}` });
  if (isLegal(command.kind))
    found.push({
      code: 'legal-today',
      text: 'Today: tell the insurer and the attorney, keep everything of this job, and no further words to the other side.',
    });
  if (facts.earlierOfProperty.length > 0)
    found.push({
      code: 'earlier-callbacks',
      text: `There are earlier callbacks for this property: ${facts.earlierOfProperty.join(', ')}.`,
    });
  return needsPolicy(command.kind)
    ? [...found, ...policyWarnings(policy, { today: facts.today, inspectedOn: facts.inspectedOn ?? facts.today })]
    : found;
}

/** What to tell a caller who may be in danger. An example until an owner approves the firm's own wording. */
export const SAFETY_ADVICE =
  'Breaker: only if you can reach it dry and safely; otherwise leave and call. Gas: leave, touch no switch, call from outside. Carbon monoxide: fresh air, then 911.';

/** Said on the phone, as the acknowledgement says it: hearing a problem admits nothing, and the house should be seen before it is repaired. */
export const NO_ADMISSION =
  'Reporting a problem does not mean that we accept responsibility; please do not repair before we or your insurer have seen it, unless to prevent danger or more damage: then photograph first.';
