// Import circles, over the whole repository.
import { it } from 'vitest';
import { checkCircles } from './checkCircles.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

it('no files import each other in a circle', () => expectNone(checkCircles(parseAll(repository()))));
