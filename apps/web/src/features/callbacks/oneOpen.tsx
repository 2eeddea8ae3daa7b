// One form at a time on the page of a callback: opening one closes the other, so that no two inputs share a name. What opens is brought into view.
import { nowOpen } from './nowOpen.ts';
import { createContext, useContext, useEffect, useRef, useState, type Dispatch, type ReactNode, type SetStateAction } from 'react';

const Opened = createContext<{ name: string | null; set: Dispatch<SetStateAction<string | null>> }>({ name: null, set: () => {} });

export function OneOpen({ children }: { children: ReactNode }): ReactNode {
  const [name, set] = useState<string | null>(null);
  const around = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (name !== null) around.current?.querySelector('form')?.scrollIntoView({ block: 'nearest' });
  }, [name]);
  return (
    <Opened value={{ name, set }}>
      <div ref={around}>{children}</div>
    </Opened>
  );
}

/** Name of the form that is open; null while none is. */
export const useOpened = (): string | null => useContext(Opened).name;

/** Whether the form of this name is the open one, and a way to open or close it; closing never closes another that was opened meanwhile. */
export function useOneOpen(name: string): [boolean, (open: boolean) => void] {
  const opened = useContext(Opened);
  return [opened.name === name, (open) => opened.set((now) => nowOpen(now, name, open))];
}
