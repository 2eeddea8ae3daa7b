// What a fingerprint can be the fingerprint of.
export const FINGERPRINTS = ['signed_agreement', 'report', 'agreement_words', 'report_file', 'site_record', 'job_file'] as const;
export type Fingerprint = (typeof FINGERPRINTS)[number];

/** As it is told to whoever asks. */
export const FINGERPRINT_WORDS: Record<Fingerprint, string> = {
  signed_agreement: 'a signed agreement with its signing record, sealed',
  report: 'an inspection report drafted by this firm, sealed',
  agreement_words: 'the words of an agreement, as shown for signing',
  report_file: 'an inspection report taken in as a file',
  site_record: 'a sealed site record',
  job_file: 'a file of one job, made for a request of records',
};
