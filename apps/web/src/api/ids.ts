// Ids and request keys made by the browser: UUID version 7 (RFC 9562, section 5.7).

/** A new UUIDv7. Uses getRandomValues, which browsers also offer on plain http, where randomUUID is missing. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const at = BigInt(Date.now());
  for (let i = 0; i < 6; i += 1) bytes[i] = Number((at >> BigInt(40 - 8 * i)) & 0xffn);
  bytes[6] = (bytes[6]! & 0x0f) | 0x70;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}

/** The key of a request with one more thing in it, an instant for one: of letters, digits and dashes, as the service takes keys. */
export const keyWith = (key: string, more: string): string => `${key}-${more.replace(/[^a-z0-9]/gi, '')}`;
