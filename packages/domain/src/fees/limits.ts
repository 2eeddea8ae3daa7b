// How much somebody may write off alone: the widest approval limit among his roles.
import type { Role } from '../people/roles.ts';

/** In cents; 'none' = any amount. A role without a limit on file may write off nothing. */
export function limitFor(roles: readonly Role[], limits: readonly { role: string; limitCents: number | null }[]): number | 'none' {
  const own = limits.filter(({ role }) => (roles as readonly string[]).includes(role)).map(({ limitCents }) => limitCents);
  return own.includes(null) ? 'none' : Math.max(0, ...(own as number[]));
}
