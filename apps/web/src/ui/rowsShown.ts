// How many rows of a long list a phone shows, kept behind the # of the address: going back from one row finds the list as it was left.
import { useLocation, useNavigate } from '@tanstack/react-router';

/** `list` names one of the lists of a screen; `atOnce` are shown where the address says nothing. */
export function useRowsShown(list: string, atOnce: number): readonly [number, (rows: number) => void] {
  const said = new URLSearchParams(useLocation({ select: ({ hash }) => hash }));
  const navigate = useNavigate();
  const name = list.replaceAll(/\W+/g, '-').toLowerCase();
  const show = (rows: number): void => {
    said.set(name, String(rows));
    void navigate({ to: '.', search: true, hash: said.toString(), replace: true, resetScroll: false, hashScrollIntoView: false });
  };
  const rows = Number(said.get(name));
  return [Number.isSafeInteger(rows) && rows > atOnce ? rows : atOnce, show];
}
