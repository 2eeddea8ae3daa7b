// A picture that is kept on this phone.
import { useCallback, type ReactNode } from 'react';

/** Shown from what is kept; its address is given back with it. */
export function BlobImage({ blob, alt }: { blob: Blob; alt: string }): ReactNode {
  const show = useCallback(
    (image: HTMLImageElement) => {
      const address = URL.createObjectURL(blob);
      image.src = address;
      return () => URL.revokeObjectURL(address);
    },
    [blob],
  );
  return <img ref={show} alt={alt} />;
}
