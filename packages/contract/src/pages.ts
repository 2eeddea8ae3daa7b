// The addresses that are no routes of the API: what each shows, and what opens it. Every address of the service is here or in a route.
/**
 * 'anyone' shows nothing of a client; 'link': the secret in the address is the only key, and opens what it was made for and nothing else;
 * 'feed': the same, of somebody's calendar; 'this machine': or whoever has the token of the settings.
 */
export type OpenedBy = 'anyone' | 'link' | 'feed' | 'this machine';
export type PageRow = { method: 'GET' | 'POST'; path: string; openedBy: OpenedBy };

export const PAGES: readonly PageRow[] = [
  { method: 'GET', path: '/client/:token', openedBy: 'link' },
  { method: 'POST', path: '/client/:token', openedBy: 'link' },
  { method: 'GET', path: '/client/:token/agreement.pdf', openedBy: 'link' },
  { method: 'GET', path: '/client/:token/report', openedBy: 'link' },
  { method: 'POST', path: '/client/:token/report', openedBy: 'link' },
  { method: 'GET', path: '/client/after/:token', openedBy: 'link' },
  { method: 'POST', path: '/client/after/:token', openedBy: 'link' },
  { method: 'GET', path: '/calendar/:file', openedBy: 'feed' },
  { method: 'GET', path: '/client-page/sign.js', openedBy: 'anyone' },
  { method: 'GET', path: '/client-page/report.js', openedBy: 'anyone' },
  { method: 'GET', path: '/client-page/keep.js', openedBy: 'anyone' },
  { method: 'GET', path: '/client-page/style.css', openedBy: 'anyone' },
  { method: 'GET', path: '/verify', openedBy: 'anyone' },
  { method: 'GET', path: '/verify.js', openedBy: 'anyone' },
  { method: 'GET', path: '/complaints', openedBy: 'anyone' },
  { method: 'GET', path: '/api/openapi.json', openedBy: 'anyone' },
  { method: 'GET', path: '/metrics', openedBy: 'this machine' },
];
