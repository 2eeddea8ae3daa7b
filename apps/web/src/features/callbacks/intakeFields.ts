// The fields of the intake, and what of them is sent.
import type { Danger } from './words.ts';
import type { Intake } from '../../api/callbacks.ts';
import { isLegal } from '@backsight/contract/callbacks';
import { toInstant } from '../../ui/time.ts';

export const LABELS = {
  kind: 'Kind',
  speaker: 'Who speaks',
  partyId: 'Which person',
  name: 'Name',
  email: 'E-mail',
  phone: 'Phone',
  ownerOnly: 'Only an owner sees this file',
  safety: 'Somebody may be in danger',
  dangers: 'From what',
  way: 'How it came',
  sender: 'Sender of the mail',
  cameAt: 'When the mail came',
  reference: 'Message reference, else the subject',
  system: 'System',
  place: 'Where in the house',
  words: 'What they say, in their words',
  remedySought: 'What they ask for',
  discoveredOn: 'Noticed on',
  servedOn: 'Served on',
  serviceWay: 'Way of service',
  deadlineOn: 'Deadline in the paper',
  stepKey: 'At which step, if it is known',
  caughtBy: 'Who caught it',
  link: 'Is it new?',
  'mail.sender': 'Sender of the mail',
  'mail.cameAt': 'When the mail came',
  'mail.reference': 'Message reference, else the subject',
  'link.to': 'Is it new?',
};

export const BLANK = {
  kind: 'missed' as Intake['kind'],
  speaker: 'client' as Intake['speaker'],
  partyId: '',
  name: '',
  email: '',
  phone: '',
  ownerOnly: true,
  safety: false,
  dangers: [] as Danger[],
  way: 'desk',
  sender: '',
  cameAt: '',
  reference: '',
  system: 'electrical',
  place: '',
  words: '',
  remedySought: '',
  discoveredOn: '',
  servedOn: '',
  serviceWay: '',
  deadlineOn: '',
  stepKey: '',
  caughtBy: '',
  /** '' is new; else the kind of link and the id of the earlier one. */
  link: '',
  'mail.sender': '',
  'mail.cameAt': '',
  'mail.reference': '',
  'link.to': '',
};
export type IntakeValues = typeof BLANK;

/** Chosen instead of a person of the job. */
export const OUTSIDE = 'outside';

/** Leaves out what was left empty, and what belongs to another kind or way. */
export function filled(v: IntakeValues, newPartyId: string, zone: string): Omit<Intake, 'id' | 'jobId'> {
  const { kind, speaker, safety, system, place, words, remedySought } = v;
  const paper = isLegal(kind) ? { servedOn: v.servedOn, serviceWay: v.serviceWay, deadlineOn: v.deadlineOn, ownerOnly: v.ownerOnly } : {};
  const caught = kind === 'near_miss' ? { stepKey: v.stepKey, caughtBy: v.caughtBy } : {};
  const optional = Object.entries({ ...who(v, newPartyId), discoveredOn: v.discoveredOn, ...paper, ...caught }).filter(
    ([, value]) => value !== '',
  );
  const [linkKind, to] = v.link.split(' ');
  return {
    ...{ kind, speaker, safety, system, place, words, remedySought },
    ...Object.fromEntries(optional),
    ...(safety ? { dangers: v.dangers } : {}),
    ...(v.way === 'mail' ? { mail: { sender: v.sender, cameAt: toInstant(v.cameAt, zone), reference: v.reference } } : {}),
    ...(to ? { link: { to, kind: linkKind as 'duplicate' | 'repeat' } } : {}),
  };
}

const who = ({ partyId, name, email, phone }: IntakeValues, id: string) =>
  partyId === OUTSIDE ? { newParty: { id, name, email: email.trim() || null, phone: phone.trim() || null } } : { partyId };
