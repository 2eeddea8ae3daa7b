/** What was noted about access, as lines; the reason why access is asked for is none of them. */
export const accessLines = (details: Record<string, unknown> | null | undefined): string[] =>
  Object.entries(details ?? {})
    .filter(([key, value]) => key !== 'why' && typeof value === 'string' && value !== '')
    .map(([, value]) => String(value));
