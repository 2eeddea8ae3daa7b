// The words of one clause as they stand in an agreement that was put together for a job.

/** The numbered section of that title, without its heading; null where there is none. */
export function sectionOf(body: string, title: string): string | null {
  const lines = body.split('\n');
  const from = lines.findIndex((line) => /^## \d+\. /.test(line) && line.replace(/^## \d+\. /, '') === title);
  if (from < 0) return null;
  const rest = lines.slice(from + 1);
  const until = rest.findIndex((line) => line.startsWith('## '));
  return (
    rest
      .slice(0, until < 0 ? undefined : until)
      .join('\n')
      .trim() || null
  );
}
