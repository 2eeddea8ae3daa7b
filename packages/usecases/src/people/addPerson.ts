// Adds a person to the firm.
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { mayGive } from '@backsight/domain/people/rules';
import type { Role } from '@backsight/domain/people/roles';
import { savePerson } from '@backsight/store/people';
import type { Act, Work } from '../run.ts';
import { hashPassword } from './steps/password.ts';
import { mayChoose } from './steps/security.ts';

export type NewPersonInput = {
  id: string;
  officeId: string;
  name: string;
  email: string;
  phone: string;
  password?: string;
  trainee: boolean;
  mayLead: boolean;
  homeAddress: string;
  homeLat: number;
  homeLon: number;
  startedOn: string;
  roles: Role[];
};

export const addPerson: Act<NewPersonInput, { id: string }> = { operation: 'people.add', run: add };

async function add(work: Work, input: NewPersonInput): Promise<Outcome<{ id: string }>> {
  const { password, ...row } = input;
  const given = mayGive(work.actor.kind === 'person' ? work.actor.roles : [], input.roles);
  if (!given.ok) return given;
  if (password !== undefined) {
    const may = await mayChoose(work.tx, input, password);
    if (!may.ok) return may;
  }
  const passwordHash = password === undefined ? null : await hashPassword(password);
  await savePerson(work.tx, { ...row, passwordHash, recordedAt: work.now });
  await work.did('person', input.id, { roles: input.roles, trainee: input.trainee });
  return accept({ id: input.id });
}
