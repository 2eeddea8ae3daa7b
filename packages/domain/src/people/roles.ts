// Roles in the firm; one person may hold several.
export const ROLES = {
  owner: 'owner',
  lead_inspector: 'lead inspector',
  office_manager: 'office manager',
  inspector: 'inspector',
} as const;
export type Role = keyof typeof ROLES;
export const ALL_ROLES = Object.keys(ROLES) as readonly Role[];
