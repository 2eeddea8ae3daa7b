// Whether a clock of a callback runs, as a piece of a statement that calls it `k`.

/** When the pair of a re-visit was at the house after the clock of the visit had started: that meets it, whoever writes it down when. */
export const VISIT_BEGAN = `(SELECT min(d.opened_at) FROM remedy r JOIN remedy_visit x ON x.remedy_id = r.id JOIN visit v ON v.job_id = x.job_id JOIN site_record d ON d.visit_id = v.id
  WHERE r.callback_id = k.callback_id AND k.clock = 'visit' AND d.opened_at >= k.started_at)`;

/** Neither met, nor dropped, nor standing still. */
export const RUNS = `k.met_at IS NULL AND k.dropped_at IS NULL AND ${VISIT_BEGAN} IS NULL
  AND NOT (k.clock IN ('visit', 'decision') AND EXISTS (SELECT FROM callback_pause s WHERE s.callback_id = k.callback_id AND s.until_at IS NULL AND s.from_at < k.due_at))`;
