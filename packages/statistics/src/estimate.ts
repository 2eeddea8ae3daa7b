// The answer of a method that may have too little to go by: its figures, or a plain sentence why there are none.

/** Why there is no number; a page shows `sentence` in its place. */
export type NotEstimable = { ok: false; code: NotEstimableCode; sentence: string };

export type NotEstimableCode =
  | 'too_few'
  | 'nothing_counted'
  | 'everything_counted'
  | 'no_scatter'
  | 'no_extra_scatter'
  | 'no_exposure'
  | 'one_row'
  | 'one_period'
  | 'empty_row'
  | 'future_period'
  | 'below_zero'
  | 'zero_denominator'
  | 'falls_to_nothing'
  | 'one_row_for_factor'
  | 'grows_from_nothing'
  | 'too_few_periods';

/** Figures, or why there are none. Broken arguments throw instead. */
export type Estimate<T> = (T & { ok: true }) | NotEstimable;

/** `because` goes on after "Cannot be estimated because" and bears no full stop. */
export const cannot = (code: NotEstimableCode, because: string): NotEstimable => ({
  ok: false,
  code,
  sentence: `Cannot be estimated because ${because}.`,
});
