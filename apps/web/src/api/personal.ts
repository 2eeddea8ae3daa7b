// Calls about personal data: times, disposal, erasure and export.
import { queryOptions } from '@tanstack/react-query';
import { personalRoutes as routes, type Subject } from '@backsight/contract/personal';
import type { BodyOf } from '@backsight/contract/route';
import { addressOf, call } from './call.ts';
import { notReached, problemIn } from './problemError.ts';

export const retentionQuery = queryOptions({
  queryKey: ['personal', 'retention'],
  queryFn: ({ signal }) => call(routes.retention, { signal }),
});
export const foundPeopleQuery = (q: string) =>
  queryOptions({
    queryKey: ['personal', 'people', q],
    queryFn: ({ signal }) => call(routes.people, { query: { q }, signal }),
    enabled: q !== '',
  });
export const erasureQuery = (subject: Subject, id: string) =>
  queryOptions({ queryKey: ['personal', subject, id], queryFn: ({ signal }) => call(routes.erasure, { params: { subject, id }, signal }) });

export const setRetention = (body: BodyOf<typeof routes.setRetention>) => call(routes.setRetention, { body, key: body.id });
export const disposeDue = ({ key, ...body }: BodyOf<typeof routes.dispose> & { key: string }) => call(routes.dispose, { body, key });
export const erasePerson = ({ subject, subjectId, ...body }: BodyOf<typeof routes.erase> & { subject: Subject; subjectId: string }) =>
  call(routes.erase, { params: { subject, id: subjectId }, body, key: body.id });
/** Everything about one person as a ZIP file, with the name that the service gives it. @throws ProblemError */
export async function exportPerson({ subject, id }: { subject: Subject; id: string }): Promise<{ name: string; file: Blob }> {
  const reply = await fetch(addressOf(routes.export.path, { subject, id }), { method: 'POST', credentials: 'same-origin' }).catch(
    () => null,
  );
  if (!reply) throw notReached();
  if (!reply.ok) throw await problemIn(reply);
  const name = /filename="([^"]+)"/.exec(reply.headers.get('content-disposition') ?? '')?.[1] ?? 'personal-data.zip';
  return { name, file: await reply.blob() };
}
