// One form at a time on the page of a callback: a form that closes once took another with it that had been opened meanwhile.
import { expect, it } from 'vitest';
import { nowOpen } from '../../../apps/web/src/features/callbacks/nowOpen.ts';

it.each([
  ['opened while nothing is open', null, 'reserve', true, 'reserve'],
  ['opened in place of another', 'action', 'reserve', true, 'reserve'],
  ['opened again', 'reserve', 'reserve', true, 'reserve'],
  ['closed', 'reserve', 'reserve', false, null],
  ['closed late, when another was opened meanwhile', 'action', 'reserve', false, 'action'],
  ['closed while nothing is open', null, 'reserve', false, null],
])('a form that is %s', (_, open, name, opens, after) => expect(nowOpen(open, name, opens)).toBe(after));
