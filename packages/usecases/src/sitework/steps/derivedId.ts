// Ids that follow from others, so that two phones without signal name the same thing alike: UUID version 8 (RFC 9562, section 5.8) over SHA-256.
import { createHash } from 'node:crypto';

const derived = (text: string): string => {
  const bytes = createHash('sha256').update(text, 'utf8').digest().subarray(0, 16);
  bytes[6] = (bytes[6]! & 0x0f) | 0x80;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
};

export const recordIdOf = (visitId: string): string => derived(`site record of ${visitId}`);
export const firstPackageIdOf = (visitId: string): string => derived(`first package of ${visitId}`);
/** Of a thing that is suggested before anybody has seen the house. */
export const itemIdOf = (visitId: string, item: { kind: string; label: string }): string =>
  derived(`${item.kind} ${item.label} at ${visitId}`);
