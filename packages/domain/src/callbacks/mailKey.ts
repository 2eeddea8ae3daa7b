// By what a mail that the office logs is known again.

/** `reference`: the message reference (msg-id of RFC 5322, 3.6.4) where the office has it, else the subject. `cameAt`: ISO with offset. */
export type LoggedMail = { sender: string; cameAt: string; reference: string };

const MESSAGE_REFERENCE = /^<?[^\s<>@]+@[^\s<>@]+>?$/;

/**
 * The same for the same mail, whoever logs it. A message reference is unique in the world; a subject is not, so that it counts only with the
 * sender and the minute in which it came.
 */
export function mailKey({ sender, cameAt, reference }: LoggedMail): string {
  const plain = reference.trim();
  if (MESSAGE_REFERENCE.test(plain)) return `reference ${plain.replace(/^<|>$/g, '')}`;
  const subject = plain
    .toLowerCase()
    .replace(/^(?:(?:re|fw|fwd)\s*:\s*)+/, '')
    .replace(/\s+/g, ' ');
  return `subject ${sender.trim().toLowerCase()} ${new Date(cameAt).toISOString().slice(0, 16)} ${subject}`;
}
