// Offers an approved remedy until a day, ends an offer, and sends the settlement release to be signed.
import { useState, type ReactNode } from 'react';
import { Button, NativeSelect, Stack, TextInput, Textarea } from '@mantine/core';
import type { Callback } from '@backsight/contract/callbacks';
import { MADE_TO_SETTLE, OFFER_ENDS, type PuttingRight } from '@backsight/contract/callbacks/remedies';
import { newId } from '../../api/ids.ts';
import { endOffer, issueRelease, offerRemedy } from '../../api/remedies.ts';
import { Follows } from '../../ui/Follows.tsx';
import { Form } from '../../ui/Form.tsx';
import { ProblemNote } from '../../ui/ProblemNote.tsx';
import { useFields } from '../../ui/useFields.ts';
import { useSend } from '../../ui/useSend.ts';
import { useOneOpen } from './oneOpen.tsx';
import { options } from './words.ts';

type Props = { callback: Callback; remedy: Callback['remedies'][number]; right: PuttingRight | undefined };

export function Settle({ callback, remedy, right }: Props): ReactNode {
  const [offering, setOffering] = useOneOpen(`offer-${remedy.id}`);
  const [ending, setEnding] = useOneOpen(`end-offer-${remedy.id}`);
  const release = useSend(issueRelease, { refresh: ['callbacks'], said: 'The release was sent to be signed; the payment waits for it.' });
  const standing = (right?.offers ?? []).find((o) => o.remedyId === remedy.id && (o.state === 'open' || o.state === 'expired'));
  const signed = (right?.releases ?? []).some((x) => x.remedyId === remedy.id && x.state === 'signed');
  const cleared = (callback.clearances ?? []).length > 0;
  if (!cleared) return <p>Nothing is offered or paid before consent or reason is recorded under Money.</p>;
  if (offering) return <Offer remedyId={remedy.id} onDone={() => setOffering(false)} />;
  if (ending && standing) return <EndOffer offerId={standing.id} onDone={() => setEnding(false)} />;
  return (
    <>
      <ProblemNote of={release.error} />
      {standing?.state === 'open' ? null : (
        <Button variant="default" onClick={() => setOffering(true)}>
          Offer it by mail
        </Button>
      )}
      {standing ? (
        <Button variant="default" onClick={() => setEnding(true)}>
          End the offer
        </Button>
      ) : null}
      {signed ? null : (
        <Button variant="default" loading={release.isPending} onClick={() => release.mutate({ id: remedy.id })}>
          Send the settlement release
        </Button>
      )}
      {signed ? null : <Follows>The release goes out by mail at once, to be signed on a private link; the payment waits for it.</Follows>}
    </>
  );
}

const LABELS = { validUntil: 'The offer stands through', words: 'What it is for, as it stands in the letter' };

function Offer({ remedyId, onDone }: { remedyId: string; onDone: () => void }): ReactNode {
  const [offerId] = useState(newId);
  const send = useSend(offerRemedy, { refresh: ['callbacks'], said: 'The offer goes out by mail.', then: onDone });
  const fields = useFields({ validUntil: '', words: '' }, LABELS, send.error, undefined, remedyId);
  return (
    <Stack maw="40rem" w="100%">
      <p>{`The letter says: "${MADE_TO_SETTLE}" (That an offer to settle proves no fault: Wis. Stat. 904.08, from memory, to be read in the source.)`}</p>
      <Form
        error={send.error}
        labels={LABELS}
        draft={fields.draft}
        submit="Send the offer"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: remedyId, offerId, ...fields.values })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <TextInput {...fields.text('validUntil')} type="date" required maw="16rem" />
        <Textarea {...fields.text('words')} required autosize minRows={2} />
      </Form>
    </Stack>
  );
}

const END = { end: 'The offer was', words: 'What was said' };

function EndOffer({ offerId, onDone }: { offerId: string; onDone: () => void }): ReactNode {
  const send = useSend(endOffer, { refresh: ['callbacks'], said: 'The offer has ended.', then: onDone });
  const fields = useFields({ end: 'accepted' as keyof typeof OFFER_ENDS, words: '' }, END, send.error, undefined, offerId);
  const { end, words } = fields.values;
  return (
    <Stack maw="40rem" w="100%">
      <Form
        error={send.error}
        labels={END}
        draft={fields.draft}
        submit="End the offer"
        busy={send.isPending}
        onSubmit={() => send.mutate({ id: offerId, end, ...(words.trim() ? { words } : {}) })}
        besides={
          <Button variant="default" onClick={onDone}>
            Go back
          </Button>
        }
      >
        <NativeSelect {...fields.text('end')} data={options(OFFER_ENDS)} />
        <Textarea {...fields.text('words')} autosize minRows={2} />
      </Form>
    </Stack>
  );
}
