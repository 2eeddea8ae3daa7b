-- A callback that was taken in under the wrong job counts, from the moment on at which it was moved, where its job was inspected; until
-- then, and as of any day before, where it stood.
CREATE OR REPLACE VIEW callback_segment AS
WITH said AS (
  SELECT callback_id, recorded_at AS at, 0 AS kind, seq, details AS change FROM callback_event WHERE kind IN ('received', 'became_callback', 'linked', 'unlinked', 'job_changed')
  UNION ALL
  SELECT callback_id, recorded_at, 1, 0, CASE WHEN needs_confirmation THEN '{"cause": null, "step": null}' ELSE jsonb_build_object('cause', cause, 'step', step_key) END FROM conclusion
  UNION ALL
  SELECT x.callback_id, f.recorded_at, 2, 0, jsonb_build_object('cause', x.cause, 'step', x.step_key)
  FROM conclusion_confirmation f JOIN conclusion x ON x.id = f.conclusion_id AND x.needs_confirmation
  WHERE NOT EXISTS (SELECT FROM conclusion n WHERE n.callback_id = x.callback_id AND n.recorded_at > x.recorded_at AND n.recorded_at <= f.recorded_at)),
told AS (
  SELECT callback_id, at, lead(at) OVER w AS until_at, jsonb_merge(change) OVER w AS state
  FROM said WINDOW w AS (PARTITION BY callback_id ORDER BY at, kind, seq))
SELECT callback_id, at AS from_at, until_at, (state->>'jobId')::uuid AS job_id,
  state->>'kind' NOT IN ('question', 'near_miss') AND state->>'duplicateOfId' IS NULL AS counts, state->>'cause' AS cause, state->>'step' AS step_key
FROM told;
