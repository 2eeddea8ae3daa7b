// Sizes of files, functions and React components, over the whole repository.
import { it } from 'vitest';
import { checkSizes } from './checkSizes.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

it('no file, function or component is over its limit', () => expectNone(checkSizes(parseAll(repository()))));
