// Purity of the domain and the engines, over the whole repository.
import { it } from 'vitest';
import { checkPurity } from './checkPurity.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

it('no pure floor touches clock, chance, environment or log', () => expectNone(checkPurity(parseAll(repository()))));
