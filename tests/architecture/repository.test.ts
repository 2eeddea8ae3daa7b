// The rules of the house over the whole repository, which is read and parsed once for all of them.
import { expect, it } from 'vitest';
import { checkCircles } from './checkCircles.ts';
import { checkDeadFiles } from './checkDeadFiles.ts';
import { checkFloors } from './checkFloors.ts';
import { checkHelp } from './checkHelp.ts';
import { checkLeftovers } from './checkLeftovers.ts';
import { checkLocalTime } from './checkLocalTime.ts';
import { checkPurity } from './checkPurity.ts';
import { checkSizes } from './checkSizes.ts';
import { checkUseCases } from './checkUseCases.ts';
import { expectNone } from './expectNone.ts';
import { parseAll, repository } from './read.ts';

const files = parseAll(repository());

it('is seen: the catalogue of refusals imports those of an area', () => {
  const catalogue = files.find((file) => file.path === 'packages/domain/src/refusals.ts');
  expect(catalogue?.imports.map((one) => one.target)).toContain('packages/domain/src/people/refusals.ts');
});

it.each([
  ['every import is allowed by the table of floors', checkFloors],
  ['no files import each other in a circle', checkCircles],
  ['no pure floor touches clock, chance, environment or log', checkPurity],
  ['no time is read by the zone of the machine', checkLocalTime],
  ['nothing is switched off, put off or silenced', checkLeftovers],
  ['no use case calls another', checkUseCases],
  ['every file is reached from an entry', checkDeadFiles],
  ['every screen has its line of help', checkHelp],
  ['no file, function or component is over its limit', checkSizes],
])('%s', (_, check) => expectNone(check(files)));
