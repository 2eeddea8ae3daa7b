// Who may import what, over the whole repository.
import { it } from 'vitest';
import { checkFloors } from './checkFloors.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

it('every import is allowed by the table of floors', () => expectNone(checkFloors(parseAll(repository()))));
