// A link that opens the phone's own messaging (RFC 5724).

/** '+19205550123' of a North American number as people write it; another number as its digits. Null when it holds none. */
function dialable(phone: string): string | null {
  const digits = phone.replace(/\D/g, '');
  if (digits === '') return null;
  if (phone.trim().startsWith('+')) return `+${digits}`;
  if (digits.length === 10) return `+1${digits}`;
  return digits.length === 11 && digits.startsWith('1') ? `+${digits}` : digits;
}

/** `sms:` with the body percent-encoded; null without a number. */
export function smsLink(phone: string, body: string): string | null {
  const number = dialable(phone);
  return number === null ? null : `sms:${number}?body=${encodeURIComponent(body)}`;
}
