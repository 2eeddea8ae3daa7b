// What a kind of mail is: its built-in wording, its fields, and which of them it cannot do without.

/** Fields of every kind. */
const OF_ALL = { name: 'who the mail is to', firm: 'name of the firm', firm_phone: 'phone number of the firm' } as const;

export type Template = {
  title: string;
  subject: string;
  body: string;
  fields: Record<string, string>;
  /** May be empty: it then leaves nothing behind. */
  optional: readonly string[];
  /** A wording without it would be of no use. */
  must: readonly string[];
};

/** A kind of mail: greeting, then its paragraphs. */
export const template = (
  title: string,
  fields: Record<string, string>,
  words: { subject: string; paragraphs: readonly string[]; optional?: readonly string[]; must?: readonly string[] },
): Template => ({
  title,
  fields: { ...OF_ALL, ...fields },
  subject: words.subject,
  body: ['Dear {{name}},', ...words.paragraphs].join('\n\n'),
  optional: words.optional ?? [],
  must: words.must ?? [],
});

export const QUESTIONS = ['Questions? Please call us at {{firm_phone}}.', '{{firm}}'];
