// Whether somebody may speak for the office about a visit that they do not go on.
import type { Actor } from '../../run.ts';

export const mayDecide = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.some((role) => role !== 'inspector');
