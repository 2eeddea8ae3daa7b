// What opens over the screen is seldom opened: it comes to the browser when it first is.
import { lazy, Suspense, useEffect, useState, type ComponentType, type ReactNode } from 'react';

/** One that is taken away while it stands open gives the focus back as one that closes does. */
function openerWaits(): () => void {
  const opener = document.activeElement;
  return () =>
    void setTimeout(() => {
      const nowhere = document.activeElement === null || document.activeElement === document.body;
      if (nowhere && opener instanceof HTMLElement && opener.isConnected) opener.focus({ preventScroll: true });
    });
}

/** The same component, loaded when it is first opened. It sees itself being opened, because it then remembers where the focus was. */
export function late<P extends { opened: boolean }>(load: () => Promise<{ default: ComponentType<P> }>): (props: P) => ReactNode {
  const Part = lazy(load);
  function Come(props: P): ReactNode {
    const [come, setCome] = useState(false);
    useEffect(() => setCome(true), []);
    useEffect(openerWaits, []);
    return <Part {...props} opened={come && props.opened} />;
  }
  return function Late(props: P): ReactNode {
    const [wanted, setWanted] = useState(false);
    if (props.opened && !wanted) setWanted(true);
    return wanted ? (
      <Suspense fallback={null}>
        <Come {...props} />
      </Suspense>
    ) : null;
  };
}
