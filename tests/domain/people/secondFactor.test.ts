// Who must have a second factor: as the installation says (OWASP ASVS 5.0.0, 6.3.3 asks for it of everybody), and never in the demo firm.
import { expect, it } from 'vitest';
import { mustHaveFactor, type FactorFor } from '@backsight/domain/people/secondFactor';
import type { Role } from '@backsight/domain/people/roles';

const must = (who: FactorFor, roles: Role[], demo = false): boolean => mustHaveFactor({ who, roles, demo });

it.each([
  ['everyone', [true, true, true]],
  ['owners', [true, false, false]],
  ['nobody', [false, false, false]],
] as const)('%s: an owner, an inspector, somebody without a role', (who, expected) => {
  expect([must(who, ['owner', 'inspector']), must(who, ['inspector']), must(who, [])]).toEqual(expected);
  expect(must(who, ['owner'], true), 'in the demo firm').toBe(false);
});
