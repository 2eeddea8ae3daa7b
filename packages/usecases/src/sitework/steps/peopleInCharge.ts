// Who of the firm is written to when people are in danger: owners, lead inspectors and the office, at any hour.
import { listPeople } from '@backsight/store/people';
import type { Reader } from '@backsight/store/database';

const IN_CHARGE = ['owner', 'lead_inspector', 'office_manager'];

export const peopleInCharge = async (reader: Reader): Promise<{ id: string; name: string; email: string }[]> =>
  (await listPeople(reader))
    .filter(({ endedOn, roles }) => endedOn === null && roles.some((role) => IN_CHARGE.includes(role)))
    .map(({ id, name, email }) => ({ id, name, email }));
