// Refusals that belong to no area.
import { refusalList } from './refusal.ts';

export const sharedRefusals = refusalList({
  'not-found': { blame: 'missing', sentence: 'There is no such {thing}.' },
  'not-allowed': { blame: 'permission', sentence: 'Your role may not do this.' },
  'changed-meanwhile': { blame: 'conflict', sentence: 'Somebody else changed this meanwhile. Look at the newest version and try again.' },
  'key-reused': { blame: 'conflict', sentence: 'This request key was already used with other content.' },
  'already-exists': { blame: 'conflict', sentence: 'This is already there.' },
  'still-in-use': { blame: 'conflict', sentence: 'Something else depends on this, or what it points to does not exist.' },
  'rule-of-the-database': { blame: 'conflict', sentence: 'The records do not allow this ({rule}).' },
});
