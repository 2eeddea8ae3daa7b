// A client's private page as a browser without scripts uses it.
import type { testApi } from './http.ts';

/** Posts a form to a private link. */
export const postForm = (api: ReturnType<typeof testApi>, link: string, fields: Record<string, string>) =>
  api.app().inject({
    method: 'POST',
    url: link,
    headers: { 'content-type': 'application/x-www-form-urlencoded', 'user-agent': 'A phone' },
    payload: new URLSearchParams(fields).toString(),
  });
