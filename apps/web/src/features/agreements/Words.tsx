// The words of an agreement with its headings and bold stretches; all else stands as it was written.
import type { ReactNode } from 'react';

const bold = (text: string): ReactNode[] =>
  text.split('**').map((part, at) => (at % 2 === 1 ? <strong key={`${at} ${part}`}>{part}</strong> : part));

export function Words({ body }: { body: string }): ReactNode {
  return body.split(/\n{2,}/).map((block, at) => {
    const heading = /^#{1,4} (.+)$/.exec(block);
    const key = `${at} ${block.slice(0, 20)}`;
    return heading ? (
      <h3 key={key}>{heading[1]}</h3>
    ) : (
      <p key={key} style={{ whiteSpace: 'pre-line', overflowWrap: 'anywhere' }}>
        {bold(block)}
      </p>
    );
  });
}
