// Use cases that call each other, over the whole repository.
import { it } from 'vitest';
import { checkUseCases } from './checkUseCases.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

it('no use case calls another', () => expectNone(checkUseCases(parseAll(repository()))));
