// Leftovers, over the whole repository.
import { it } from 'vitest';
import { checkLeftovers } from './checkLeftovers.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

it('nothing is switched off, put off or silenced', () => expectNone(checkLeftovers(parseAll(repository()))));
