// Puts licenses and qualifications of people on file, and ends them early.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { daysInOrder } from '@backsight/domain/people/times';
import {
  findLicense,
  findQualification,
  saveLicense,
  saveQualification,
  setLicenseEnd,
  setQualificationEnd,
  type LicenseRow,
} from '@backsight/store/people/credentials';
import { findPerson } from '@backsight/store/people';
import type { Act, Work } from '../run.ts';

export const addLicense: Act<LicenseRow & { personId: string }, { id: string }> = { operation: 'people.add-license', run: license };

async function license(work: Work, input: LicenseRow & { personId: string }): Promise<Outcome<{ id: string }>> {
  if (!(await findPerson(work.tx, input.personId))) return refuse('not-found', { thing: 'person' });
  const fits = daysInOrder(input.fromDay, input.untilDay);
  if (!fits.ok) return fits;
  await saveLicense(work.tx, input);
  await work.did('person', input.personId, { licenseId: input.id, kind: input.kind, fromDay: input.fromDay, untilDay: input.untilDay });
  return accept({ id: input.id });
}

export type EndInput = { id: string; untilDay: string };

/** A license may end on another day than was thought: given up, suspended, renewed late. */
export const endLicense: Act<EndInput, { id: string }> = { operation: 'people.end-license', run: endsLicense };

async function endsLicense(work: Work, { id, untilDay }: EndInput): Promise<Outcome<{ id: string }>> {
  const before = await findLicense(work.tx, id);
  if (!before) return refuse('not-found', { thing: 'license' });
  const fits = daysInOrder(before.fromDay, untilDay);
  if (!fits.ok) return fits;
  await setLicenseEnd(work.tx, id, untilDay);
  await work.did('person', before.personId, { licenseId: id, untilDayBefore: before.untilDay, untilDay });
  return accept({ id });
}

export type QualificationInput = { id: string; personId: string; kind: string; fromDay: string; untilDay: string | null };

export const addQualification: Act<QualificationInput, { id: string }> = { operation: 'people.add-qualification', run: qualification };

async function qualification(work: Work, input: QualificationInput): Promise<Outcome<{ id: string }>> {
  if (!(await findPerson(work.tx, input.personId))) return refuse('not-found', { thing: 'person' });
  const fits = daysInOrder(input.fromDay, input.untilDay);
  if (!fits.ok) return fits;
  await saveQualification(work.tx, input);
  await work.did('person', input.personId, {
    qualificationId: input.id,
    kind: input.kind,
    fromDay: input.fromDay,
    untilDay: input.untilDay,
  });
  return accept({ id: input.id });
}

export const endQualification: Act<EndInput, { id: string }> = { operation: 'people.end-qualification', run: endsQualification };

async function endsQualification(work: Work, { id, untilDay }: EndInput): Promise<Outcome<{ id: string }>> {
  const before = await findQualification(work.tx, id);
  if (!before) return refuse('not-found', { thing: 'qualification' });
  const fits = daysInOrder(before.fromDay, untilDay);
  if (!fits.ok) return fits;
  await setQualificationEnd(work.tx, id, untilDay);
  await work.did('person', before.personId, { qualificationId: id, untilDay });
  return accept({ id });
}
