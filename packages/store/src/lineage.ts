// Steps by their line of descent.

/** Every step key with the first ancestor of its line: a step and those derived from it are counted together. */
export const LINEAGE = `WITH RECURSIVE line AS (SELECT key, key AS root FROM step_key WHERE derived_from IS NULL
    UNION ALL SELECT k.key, l.root FROM step_key k JOIN line l ON l.key = k.derived_from)`;
