// What somebody who looks through callbacks wants, with what that person may see.
import type { Find } from '@backsight/domain/callbacks/find';
import type { Role } from '@backsight/domain/people/roles';
import type { Wanted, Which } from '@backsight/store/callbacks/find';
import { isOwner } from './callback.ts';

export type FindInput = { which: Which; find: Find; roles: readonly Role[]; now: Date };

export const wantedOf = ({ which, find, roles, now }: FindInput): Wanted => ({ which, find, seeOwnerOnly: isOwner(roles), now });
