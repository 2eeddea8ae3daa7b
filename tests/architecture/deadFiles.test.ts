// Files that nothing uses, over the whole repository.
import { it } from 'vitest';
import { checkDeadFiles } from './checkDeadFiles.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

it('every file is reached from an entry', () => expectNone(checkDeadFiles(parseAll(repository()))));
