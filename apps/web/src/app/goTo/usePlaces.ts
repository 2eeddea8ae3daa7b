// Notes the screens that somebody opens, under the title they show once it is known.
import { useEffect } from 'react';
import { useLocation } from '@tanstack/react-router';
import { useMe } from '../../api/people.ts';
import { notePlace } from '../../api/phone/recent.ts';

export function usePlaces(): void {
  const me = useMe();
  const path = useLocation({ select: ({ pathname }) => pathname });
  useEffect(() => {
    const title = document.querySelector('title');
    if (!title) return;
    const watch = new MutationObserver(() =>
      notePlace({ personId: me.id, path: window.location.pathname, title: document.title.replace(/ · Backsight$/, '') }),
    );
    watch.observe(title, { childList: true, characterData: true, subtree: true });
    return () => watch.disconnect();
  }, [me.id, path]);
}
