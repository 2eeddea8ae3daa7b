// In which state a property `a` of a job of the office `o` lies, and its address as papers have it; SQL.

/** Of the property itself, else of the office. */
export const STATE_OF = `coalesce(nullif(a.state, ''), o.jurisdiction)`;

/** '12 Ferry Street, Birchmere, WI 54901'. */
export const WHOLE_ADDRESS = `a.address || ', ' || a.town || ', ' || substr(${STATE_OF}, 4) || ' ' || a.zip`;
