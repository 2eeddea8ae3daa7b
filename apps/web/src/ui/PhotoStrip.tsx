// Photos as small pictures that open in full; one that is not there says why in words.
import { useState, type ReactNode } from 'react';
import classes from './PhotoStrip.module.css';

/** `address`: of the small and of the whole picture; null where there is none to show, which the words say. */
export type StripPhoto = { id: string; alt: string; words: string; address: { small: string; full: string } | null };

export function PhotoStrip({ photos }: { photos: readonly StripPhoto[] }): ReactNode {
  if (photos.length === 0) return null;
  return (
    <ul className={classes.strip}>
      {photos.map((photo) => (
        <li key={photo.id}>
          {photo.address ? <Picture alt={photo.alt} address={photo.address} /> : null}
          <span className={classes.words}>{photo.words}</span>
        </li>
      ))}
    </ul>
  );
}

function Picture({ alt, address }: { alt: string; address: { small: string; full: string } }): ReactNode {
  const [missing, setMissing] = useState(false);
  if (missing)
    return <span className={classes.missing}>{alt}: the picture could not be read. Without signal look later; else tell the owner.</span>;
  return (
    <a href={address.full} target="_blank" rel="noreferrer">
      <img src={address.small} alt={alt} loading="lazy" onError={() => setMissing(true)} />
    </a>
  );
}
