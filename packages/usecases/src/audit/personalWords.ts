// What is done with personal data and the files of jobs, as the audit trail calls it.

export const PERSONAL_WORDS: Readonly<Record<string, string>> = {
  'jobs.review-file': 'Said that the file of a job was reviewed and may leave',
  'personal.dispose': 'Disposed of records whose time was over',
  'personal.erase': 'Erased the personal data of somebody who asked for it',
  'personal.export': 'Gave out everything about one person',
  'personal.set-retention': 'Changed for how long records are kept',
};
