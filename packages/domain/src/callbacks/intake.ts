// Taking a callback in: who speaks, of what kind it is, and what binds them.
import { accept, refuse, type Outcome, type Refusal, type Warning } from '../shared/outcome.ts';
import type { Role } from '../people/roles.ts';
import { policyFor, policyWarnings, type Policy } from './policy.ts';
import { adviceFor, type Advice } from './advice.ts';
import type { CaughtBy, Danger, Way } from './intakeWords.ts';
import { isLegal, needsVisit, type Kind, type Speaker } from './words.ts';

/**
 * `signedBy` are the parties who signed the job's agreement; `inspectedOn` is null while nobody has been there. `receivedOn` is the day on
 * which it was received where the property is; `stepKeys` are the steps that were handed out on the job.
 */
export type IntakeFacts = {
  inspectedOn: string | null;
  receivedOn: string;
  now: string;
  byClient: boolean;
  advice: readonly Advice[];
  stepKeys: readonly string[];
  signedBy: readonly string[];
  parties: readonly string[];
  policies: readonly Policy[];
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
  way: Way;
  dangers?: readonly Danger[];
  stepKey?: string;
  caughtBy?: CaughtBy;
};

export type Taken = { binding: boolean; ownerOnly: boolean; policyId: string | null };

const OFFICE: readonly Role[] = ['owner', 'lead_inspector', 'office_manager'];
const FROM_THE_SITE: readonly Kind[] = ['near_miss', 'damage_or_injury'];

/** What a client may report is decided by the list of the private page. */
const roleRule = ({ roles, byClient }: IntakeFacts, { kind }: Intake): Refusal | null =>
  byClient || roles.some((role) => OFFICE.includes(role)) || FROM_THE_SITE.includes(kind) ? null : refuse('kind-not-for-role', {}, 'kind');

const visitedRule = ({ inspectedOn }: IntakeFacts, { kind }: Intake): Refusal | null =>
  inspectedOn === null && needsVisit(kind) ? refuse('not-visited-yet', {}, 'jobId') : null;

/** A mail that is logged later came before now, and after somebody was there. */
function mailRule({ inspectedOn, receivedOn, now }: IntakeFacts, { way, kind, receivedAt }: Intake): Refusal | null {
  if (way !== 'mail') return null;
  if (Date.parse(receivedAt) > Date.parse(now)) return refuse('mail-not-come-yet', {}, 'mail.cameAt');
  return inspectedOn !== null && needsVisit(kind) && receivedOn < inspectedOn
    ? refuse('before-the-inspection', { day: receivedOn, inspectedOn }, 'mail.cameAt')
    : null;
}

/** Only a near-miss says who caught it, and at which step of this job. */
function caughtRule({ stepKeys }: IntakeFacts, { kind, stepKey, caughtBy }: Intake): Refusal | null {
  if (kind !== 'near_miss') return caughtBy !== undefined || stepKey !== undefined ? refuse('step-only-of-near-miss', {}, 'stepKey') : null;
  return stepKey !== undefined && !stepKeys.includes(stepKey) ? refuse('step-not-on-this-job', { step: stepKey }, 'stepKey') : null;
}

/** Only somebody in danger has a danger. */
const dangerRule = (_: IntakeFacts, { safety, dangers }: Intake): Refusal | null =>
  !safety && (dangers ?? []).length > 0 ? refuse('danger-without-mark', {}, 'safety') : null;

const partyRule = ({ parties }: IntakeFacts, { partyId, newParty }: Intake): Refusal | null =>
  partyId !== undefined && newParty !== undefined
    ? refuse('two-who-speak', {}, 'newParty')
    : partyId !== undefined && !parties.includes(partyId)
      ? refuse('party-of-another-job', {}, 'partyId')
      : null;

function dayRule({ inspectedOn, today, receivedOn }: IntakeFacts, { discoveredOn, servedOn }: Intake): Refusal | null {
  for (const [field, day] of [
    ['discoveredOn', discoveredOn],
    ['servedOn', servedOn],
  ] as const) {
    if (day === undefined) continue;
    if (day > today) return refuse('in-the-future', { day }, field);
    if (field === 'discoveredOn' && day > receivedOn) return refuse('noticed-after-received', { day, receivedOn }, field);
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

const RULES = [roleRule, visitedRule, mailRule, partyRule, dayRule, paperRule, caughtRule, dangerRule];

/** Takes it in, or says which rule refuses it. `binding`: cap, notice clause and claim window of the agreement bind only who signed it. */
export function decideIntake(facts: IntakeFacts, command: Intake): Outcome<Taken> {
  const no = RULES.map((rule) => rule(facts, command)).find((refusal) => refusal !== null);
  if (no) return no;
  const policy = needsPolicy(command.kind)
    ? policyFor(command.kind, facts.policies, { receivedOn: facts.receivedOn, inspectedOn: facts.inspectedOn ?? facts.today })
    : null;
  const taken: Taken = {
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
    found.push({
      code: 'safety',
      text: `Somebody may be in danger. Call the on-call person now: ${facts.onCallPhone}. ${adviceFor(facts.advice, command.dangers ?? [])}`,
    });
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

/** Said on the phone, as the acknowledgement says it: hearing a problem admits nothing, and the house should be seen before it is repaired. */
export const NO_ADMISSION =
  'Reporting a problem does not mean that we accept responsibility; please do not repair before we or your insurer have seen it, unless to prevent danger or more damage: then photograph first.';
