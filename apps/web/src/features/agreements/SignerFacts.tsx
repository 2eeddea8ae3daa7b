// What is on file about one signer: the signature with what proves it, the answer, the capacity and the link.
import type { ReactNode } from 'react';
import { CAPACITIES, type SignerShown } from '@backsight/contract/agreements';
import { FIELD, pathOf, readStrokes } from '@backsight/domain/shared/strokes';
import { Details } from '../../ui/Details.tsx';
import { When } from '../../ui/When.tsx';
import draw from '../../ui/DrawField.module.css';

const METHODS = { link: 'by private link', on_site_device: "on the pair's device", paper: 'on paper' } as const;
type Row = readonly [string, ReactNode];

/** `kept`: the newest mail with the link was only kept here. */
export function SignerFacts({ signer, kept }: { signer: SignerShown; kept: boolean }): ReactNode {
  const { capacity, authority, authorityFile } = signer;
  const as = [CAPACITIES[capacity], authority].filter((part) => part !== '').join(', ');
  return (
    <Details
      rows={[
        ...signatureRows(signer),
        ...answerRows(signer),
        [
          'Signs',
          capacity === 'self' ? (
            as
          ) : (
            <>
              {as}{' '}
              {authorityFile ? <a href={`/api/signers/${signer.id}/files/authority`}>on file: {authorityFile}</a> : '(no paper on file)'}
            </>
          ),
        ],
        ['Link', linkWords(signer, kept)],
        ...(signer.sharedAddress ? [['Caution', `The same e-mail address has ${signer.sharedWith || 'somebody else'}.`] as const] : []),
      ]}
    />
  );
}

function signatureRows({ id, name, signature }: SignerShown): Row[] {
  if (!signature) return [['Signed', 'not yet']];
  const { happenedAt, recordedAt, method, interpreter, photoSha256, keptWhere, formatWord, strokes } = signature;
  const drawn = strokes ? readStrokes(strokes) : null;
  const later = Date.parse(recordedAt) - Date.parse(happenedAt) > 60_000;
  return [
    [
      'Signed',
      <>
        <When key="w" at={happenedAt} /> {METHODS[method]}, as {signature.name ?? 'a name that was erased'}
        {later ? (
          <>
            ; reached us <When at={recordedAt} />
          </>
        ) : null}
      </>,
    ],
    ...(drawn?.ok
      ? [
          [
            'Drawn',
            <svg
              key="s"
              className={draw.drawn}
              viewBox={`0 0 ${FIELD.width} ${FIELD.height}`}
              role="img"
              aria-label={`Drawn signature of ${name}`}
            >
              <path
                d={pathOf(drawn.value)}
                fill="none"
                stroke="currentColor"
                strokeWidth="3"
                strokeLinecap="round"
                strokeLinejoin="round"
              />
            </svg>,
          ] as const,
        ]
      : []),
    ...(interpreter ? [['Interpreter', interpreter] as const] : []),
    ...(formatWord ? [['Could open the format', `typed the word shown: ${formatWord}`] as const] : []),
    ...(photoSha256
      ? [
          [
            'Paper',
            <a key="p" href={`/api/signers/${id}/files/photo`}>
              photo of the signed paper
            </a>,
          ] as const,
        ]
      : []),
    ...(keptWhere ? [['Paper kept', keptWhere] as const] : []),
  ];
}

function answerRows({ answer, signature, wantsPaper }: SignerShown): Row[] {
  if (!answer || (signature && !wantsPaper)) return [];
  return [
    [
      answer.kind === 'declined' ? 'Declined' : 'Wants paper',
      <>
        <When key="a" at={answer.happenedAt} />
        {answer.reason ? `: ${answer.reason}` : ''}
      </>,
    ],
  ];
}

function linkWords({ sentAt, email, linkRevokedAt }: SignerShown, kept: boolean): ReactNode {
  if (!sentAt) return 'not sent';
  return (
    <>
      {kept ? 'made ' : 'sent '}
      <When at={sentAt} /> {kept ? `for ${email}, not sent` : `to ${email}`}
      {linkRevokedAt ? (
        <>
          ; taken back <When at={linkRevokedAt} />
        </>
      ) : null}
    </>
  );
}
