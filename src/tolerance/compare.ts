/** The four words for a reading against a limit; there are no others. */
export type Outcome = 'inside the limit' | 'cannot tell' | 'past the limit' | 'no limit on file';
