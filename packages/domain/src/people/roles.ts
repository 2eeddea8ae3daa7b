// Roles in the firm; one person may hold several.
export const ROLES = {
  owner: 'owner',
  lead_inspector: 'lead inspector',
  office_manager: 'office manager',
  inspector: 'inspector',
} as const;
export type Role = keyof typeof ROLES;
/** Who works with every job of the firm; an inspector with those that he goes to. */
export const DESK: readonly Role[] = ['owner', 'lead_inspector', 'office_manager'];
export const seesEveryJob = (roles: readonly Role[]): boolean => roles.some((role) => DESK.includes(role));

export const ALL_ROLES = Object.keys(ROLES) as readonly Role[];
