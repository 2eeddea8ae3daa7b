// What tests of remedies and of settling ask for again and again.
import { randomUUID } from 'node:crypto';
import type { TestApi } from '../../support/http.ts';
import { concluded, on, type Visited } from './support.ts';

type Who = 'owner' | 'lead' | 'office';

export function puttingRight(api: TestApi, job: () => Visited) {
  const propose = (who: Who, id: string, body: object) => {
    const remedyId = randomUUID();
    const asked = { remedyId, kind: 'goodwill_payment', cents: 10_000, payee: 'Paula Prior', ...body };
    return on(api, who, id, 'remedies', asked).then((answer) => ({ ...answer, remedyId }));
  };
  const right = async (id: string, who: Who = 'owner') => (await api.send(who, 'GET', `/api/callbacks/${id}/putting-right`)).body;
  const cleared = async () => {
    const id = await concluded(api, job());
    await on(api, 'owner', id, 'clearance', { kind: 'insurer_consent', words: 'By e-mail of the claim desk, today' });
    return id;
  };
  const money = async (id: string) => (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.money;
  const warned = ({ body }: { body: { warnings: { code: string }[] } }) => body.warnings.map(({ code }) => code);
  return { propose, right, cleared, money, warned };
}
