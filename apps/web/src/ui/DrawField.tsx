// A field in which a signature is drawn with finger, pen or mouse; kept as strokes, never as a picture.
import { useEffect, useRef, type PointerEvent, type ReactNode } from 'react';
import { Button } from '@mantine/core';
import { FIELD, MOST_POINTS } from '@backsight/domain/shared/strokes';
import classes from './DrawField.module.css';

type Props = { strokes: number[][]; onChange: (strokes: number[][]) => void };

export function DrawField({ strokes, onChange }: Props): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const line = useRef<number[] | null>(null);
  useEffect(() => paint(canvas.current, strokes), [strokes]);
  const at = (event: PointerEvent<HTMLCanvasElement>): [number, number] => {
    const box = event.currentTarget.getBoundingClientRect();
    const unit = (value: number, most: number) => Math.max(0, Math.min(most, Math.round(value * most)));
    return [unit((event.clientX - box.left) / box.width, FIELD.width), unit((event.clientY - box.top) / box.height, FIELD.height)];
  };
  const add = (event: PointerEvent<HTMLCanvasElement>) => {
    if (!line.current || strokes.flat().length + line.current.length >= 2 * MOST_POINTS) return;
    line.current.push(...at(event));
    paint(canvas.current, [...strokes, line.current]);
  };
  const end = () => {
    if (line.current) onChange([...strokes, line.current]);
    line.current = null;
  };
  return (
    <div>
      <canvas
        ref={canvas}
        className={classes.field}
        width={FIELD.width}
        height={FIELD.height}
        role="img"
        aria-label="Field to draw the signature in. Without a pen choose typing."
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          line.current = [];
          add(event);
        }}
        onPointerMove={add}
        onPointerUp={end}
        onPointerCancel={end}
      />
      <Button variant="default" size="xs" mt="xs" disabled={strokes.length === 0} onClick={() => onChange([])}>
        Draw it again
      </Button>{' '}
      <span role="status">{strokes.length > 0 ? 'The signature is drawn.' : ''}</span>
    </div>
  );
}

function paint(canvas: HTMLCanvasElement | null, strokes: readonly (readonly number[])[]): void {
  const pen = canvas?.getContext('2d');
  if (!canvas || !pen) return;
  pen.clearRect(0, 0, FIELD.width, FIELD.height);
  Object.assign(pen, { lineWidth: 3, lineCap: 'round', lineJoin: 'round', strokeStyle: getComputedStyle(canvas).color });
  for (const stroke of strokes) {
    pen.beginPath();
    pen.moveTo(stroke[0]!, stroke[1]!);
    for (let i = 0; i < stroke.length; i += 2) pen.lineTo(stroke[i]!, stroke[i + 1]!);
    pen.stroke();
  }
}
