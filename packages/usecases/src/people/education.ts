// Hours of continuing education: put on file with their certificate, and what is still missing for the next renewal.
import { decides } from '@backsight/domain/people/absences';
import { educationFits, educationStanding, type Standing } from '@backsight/domain/people/education';
import { readEducationRule } from '@backsight/domain/people/stored';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import {
  countSupervised,
  educationOf,
  findEducation,
  findLearners,
  saveEducation,
  withdrawEducationRow,
} from '@backsight/store/people/education';
import { findPerson } from '@backsight/store/people';
import { readStoredFile, storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Actor, Work } from '../run.ts';
import { certificateOf } from './steps/certificate.ts';

/** Everybody keeps his own; whoever decides about absences keeps those of all. */
const mayKeepFor = (actor: Actor, personId: string): boolean => actor.kind === 'person' && (actor.id === personId || decides(actor.roles));

export type EducationInput = {
  id: string;
  personId: string;
  category: string;
  title: string;
  onDay: string;
  minutes: number;
  file: { name: string; base64: string } | null;
  directory: string;
};

export const addEducation: Act<EducationInput, { id: string }> = { operation: 'people.add-education', run: add };

async function add(work: Work, { file, directory, ...entry }: EducationInput): Promise<Outcome<{ id: string }>> {
  if (work.actor.kind !== 'person' || !mayKeepFor(work.actor, entry.personId)) return refuse('not-allowed');
  if (!(await findPerson(work.tx, entry.personId))) return refuse('not-found', { thing: 'person' });
  const { today } = await localDay(work.tx, work.now);
  const fits = educationFits(entry, today);
  if (!fits.ok) return fits;
  const stored = file === null ? accept(null) : await keep(work, file, directory);
  if (!stored.ok) return stored;
  await saveEducation(work.tx, { ...entry, fileSha256: stored.value }, { recordedBy: work.actor.id, recordedAt: work.now });
  await work.did('person', entry.personId, { educationId: entry.id, onDay: entry.onDay, minutes: entry.minutes, file: stored.value });
  return accept({ id: entry.id });
}

async function keep(work: Work, file: { name: string; base64: string }, directory: string): Promise<Outcome<string | null>> {
  const certificate = certificateOf(file.base64);
  if (!certificate.ok) return certificate;
  const { bytes, mediaType } = certificate.value;
  const sha256 = await storeFile(directory, bytes);
  await noteFile(work.tx, { sha256, bytes: bytes.length, name: file.name, mediaType, at: work.now });
  return accept(sha256);
}

export const withdrawEducation: Act<{ id: string }, { id: string }> = { operation: 'people.withdraw-education', run: withdraw };

async function withdraw(work: Work, { id }: { id: string }): Promise<Outcome<{ id: string }>> {
  const found = await findEducation(work.tx, id);
  if (!found || found.withdrawn) return refuse('not-found', { thing: 'entry of education' });
  if (!mayKeepFor(work.actor, found.personId)) return refuse('not-allowed');
  await withdrawEducationRow(work.tx, id, work.now);
  await work.did('person', found.personId, { educationId: id, withdrawn: true });
  return accept({ id });
}

export type EducationPage = {
  standing: Standing | null;
  sources: string[];
  supervised: { done: number; need: number | null } | null;
  entries: { id: string; category: string; title: string; onDay: string; minutes: number; fileName: string | null }[];
};

/** What somebody took, and where he stands by the rule pack of his office; the standing is null for people without a license and where the pack names no need. */
export async function readEducation(reader: Reader, personId: string, by: { actor: Actor; now: Date }): Promise<Outcome<EducationPage>> {
  if (!mayKeepFor(by.actor, personId)) return refuse('not-allowed');
  const { today } = await localDay(reader, by.now);
  const [learner] = await findLearners(reader, today, personId);
  if (!learner) return refuse('not-found', { thing: 'person' });
  const rule = readEducationRule(learner.pack);
  const entries = await educationOf(reader, personId);
  return accept({
    standing: rule && learner.licensed ? educationStanding(rule, learner.taken, today) : null,
    sources: [...(rule?.sources ?? [])],
    supervised: learner.trainee ? { done: await countSupervised(reader, personId), need: rule?.supervised ?? null } : null,
    entries: entries.map(({ id, category, title, onDay, minutes, fileName }) => ({ id, category, title, onDay, minutes, fileName })),
  });
}

/** The certificate of an entry. */
export async function readCertificate(reader: Reader, input: { id: string; actor: Actor; directory: string }) {
  const found = await findEducation(reader, input.id);
  if (!found?.fileSha256 || found.withdrawn) return refuse('not-found', { thing: 'certificate' });
  if (!mayKeepFor(input.actor, found.personId)) return refuse('not-allowed');
  return accept({
    bytes: await readStoredFile(input.directory, found.fileSha256),
    name: found.fileName ?? 'certificate',
    mediaType: found.mediaType ?? 'application/octet-stream',
  });
}
