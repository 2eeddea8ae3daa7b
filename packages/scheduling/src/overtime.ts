// How late a person may be home.
import type { Minute } from './time.ts';
import type { PersonInput, World } from './world.ts';

/** Minutes past the working hours within which this person's drive home must end. */
export const overtimeLimitOf = (world: World, person: PersonInput): Minute => person.overtimeLimit ?? world.overtimeLimit ?? 0;
