// Fingerprints of packages and records: SHA-256 over their one fixed text.
import { createHash } from 'node:crypto';
import { canonicalText } from '@backsight/domain/sitework/canonical';

export const fingerprint = (value: unknown): string => createHash('sha256').update(canonicalText(value), 'utf8').digest('hex');
