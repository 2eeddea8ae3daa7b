// A QR code (ISO/IEC 18004) for the camera of a phone: dark on light in both themes, because cameras want it so.
import { useMemo, type ReactNode } from 'react';
import { encode } from 'uqr';
import classes from './security.module.css';

/** The same stands beside it as text, for whoever has no camera. */
export function QrPicture({ text }: { text: string }): ReactNode {
  const { data, size } = useMemo(() => encode(text, { ecc: 'M', border: 4 }), [text]);
  const path = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : []))).join('');
  return (
    <svg role="img" aria-label="Picture of the key for the camera of a phone" viewBox={`0 0 ${size} ${size}`} className={classes.qr}>
      <rect width={size} height={size} className={classes.light} />
      <path d={path} className={classes.dark} shapeRendering="crispEdges" />
    </svg>
  );
}
