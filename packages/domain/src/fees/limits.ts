// How much somebody may write off or take off a fee alone: the widest limit among his roles.
import type { Role } from '../people/roles.ts';

const widest = (own: readonly (number | null)[]): number | 'none' => (own.includes(null) ? 'none' : Math.max(0, ...(own as number[])));

/** In cents; 'none' = any amount. A role without a limit on file may write off nothing. */
export const limitFor = (roles: readonly Role[], limits: readonly { role: string; limitCents: number | null }[]): number | 'none' =>
  widest(limits.filter(({ role }) => (roles as readonly string[]).includes(role)).map(({ limitCents }) => limitCents));

/** The same for a discount, but a role for which the firm set none has no limit. */
export function discountLimitFor(
  roles: readonly Role[],
  limits: readonly { role: string; discountCents: number | null }[],
): number | 'none' {
  const own = limits.filter(({ role }) => (roles as readonly string[]).includes(role)).map(({ discountCents }) => discountCents);
  return own.length === 0 ? 'none' : widest(own);
}
