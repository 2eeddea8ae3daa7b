// By what the sums of liabilities are told apart, and what is summed.

export type Grouping = (typeof GROUPINGS)[number];
/** By what figures are told apart; a callback and its money fall under the groups of its job, its system, and the step and cause in force. */
export const GROUPINGS = ['all', 'system', 'foundation', 'age', 'service', 'rain', 'pair', 'person', 'pair_mix', 'step', 'cause'] as const;
/** Groupings that are asked for as of a past day, and by the month in which something became known. */
export const DATED = ['all', 'step', 'cause'] as const satisfies readonly Grouping[];

/** Counts (`jobs`, `callbacks`, `failures`) and cents. Paid is before recoveries; incurred = paid + reserved - recovered. */
export type Measure = 'jobs' | 'fees' | 'callbacks' | 'failures' | 'paid' | 'reserved' | 'recovered';
