// The pointer on the board: a press takes a visit in hand, dragging carries it, and a press on a free place puts what is in hand there to look at.
import { useRef, type MouseEvent, type PointerEvent } from 'react';
import { inSteps, under, type Board, type Visit } from './geometry.ts';
import { withPerson, type Held } from './spot.ts';

const FAR_ENOUGH = 6;
const EDGE = 36;

type Parts = {
  board: Board;
  held: Held | null;
  rows: { current: HTMLDivElement | null };
  onTake: (visit: Visit, personId: string) => void;
  onHold: (held: Held) => void;
};
type Grip = { visit: Visit; personId: string; x: number; y: number; grab: number; base: Held | null; moving: boolean };

const visitOf = (board: Board, button: HTMLElement): Visit | undefined =>
  board.rows
    .find(({ person }) => person.id === button.dataset.person)
    ?.strips.flatMap(({ blocks }) => blocks)
    .find(({ visit }) => visit.id === button.dataset.visit)?.visit;

/** Handlers of the rows. Fingers scroll, so they do not drag: they press. */
export function useDrag({ board, held, rows, onTake, onHold }: Parts) {
  const grip = useRef<Grip | null>(null);
  const frame = useRef(0);
  const dragged = useRef(false);
  const point = (event: MouseEvent) => {
    const over = rows.current!.lastElementChild!.getBoundingClientRect();
    const back = getComputedStyle(rows.current!).direction === 'rtl';
    return under(board, {
      x: back ? over.right - event.clientX : event.clientX - over.left,
      y: event.clientY - over.top,
      width: over.width,
    });
  };
  const carry = (base: Held, { day, minute, row }: ReturnType<typeof point>, grab: number) =>
    onHold(withPerson({ ...base, spot: { ...base.spot, day, minute: inSteps(minute - grab) } }, board.rows[row]!.person.id));

  const onPointerDown = (event: PointerEvent) => {
    const button = (event.target as HTMLElement).closest<HTMLElement>('[data-visit]');
    dragged.current = false;
    if (!button || event.button !== 0 || event.pointerType === 'touch') return;
    const visit = visitOf(board, button);
    const start = board.rows
      .flatMap(({ strips }) => strips.flatMap(({ blocks }) => blocks))
      .find((block) => block.visit.id === visit?.id)?.start;
    if (!visit || start === undefined) return;
    const grab = point(event).minute - start;
    grip.current = { visit, personId: button.dataset.person!, x: event.clientX, y: event.clientY, grab, base: null, moving: false };
  };
  const onPointerMove = (event: PointerEvent) => {
    const now = grip.current;
    if (!now) return;
    if (!now.moving) {
      if (Math.hypot(event.clientX - now.x, event.clientY - now.y) < FAR_ENOUGH) return;
      now.moving = true;
      dragged.current = true;
      rows.current!.setPointerCapture(event.pointerId);
      onTake(now.visit, now.personId);
      return;
    }
    now.base ??= held?.visit.id === now.visit.id ? held : null;
    const { base, grab } = now;
    if (!base) return;
    cancelAnimationFrame(frame.current);
    frame.current = requestAnimationFrame(() => {
      carry(base, point(event), grab);
      scrollAtEdge(rows.current!, event.clientY);
    });
  };
  const onPointerUp = () => {
    grip.current = null;
  };
  const onClick = (event: MouseEvent) => {
    if (dragged.current) return;
    const button = (event.target as HTMLElement).closest<HTMLElement>('[data-visit]');
    const visit = button && visitOf(board, button);
    if (visit) onTake(visit, button.dataset.person!);
    else if (held && !(event.target as HTMLElement).closest('a')) carry(held, point(event), 0);
  };
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel: onPointerUp, onClick };
}

function scrollAtEdge(rows: HTMLElement, y: number): void {
  const box = rows.parentElement!.parentElement!;
  const { top, bottom } = box.getBoundingClientRect();
  if (y > bottom - EDGE) box.scrollTop += EDGE / 2;
  else if (y < top + EDGE * 2) box.scrollTop -= EDGE / 2;
}
