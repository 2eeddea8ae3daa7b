// The session ended while a screen was open: sign in over it, so that nothing typed is lost. Somebody else begins anew.
import { lazy, Suspense, useSyncExternalStore, type ReactNode } from 'react';
import { Text } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { meQuery } from '../api/people.ts';
import { forgetReplies } from '../api/phone/replies.ts';
import { sendWaiting } from '../api/phone/sending.ts';
import { isAsked, onAsked, signedInAgain } from '../api/signedOut.ts';
import { Modal } from '../ui/Modal.ts';

const SignInForm = lazy(async () => ({ default: (await import('../features/signIn/SignInForm.tsx')).SignInForm }));

export function SignInAgain(): ReactNode {
  const open = useSyncExternalStore(onAsked, isAsked);
  const queries = useQueryClient();
  const done = async () => {
    const before = queries.getQueryData(meQuery.queryKey)?.id;
    const now = await queries.fetchQuery({ ...meQuery, staleTime: 0 });
    signedInAgain();
    if (before === undefined || before === now.id) {
      await sendWaiting(now.id).catch(() => undefined);
      return queries.invalidateQueries();
    }
    await forgetReplies().catch(() => undefined);
    window.location.assign('/');
  };
  return (
    <Modal opened={open} onClose={signedInAgain} title="Your session has ended" closeButtonProps={{ 'aria-label': 'Close' }}>
      <Text mb="md">Sign in again to go on. What you typed is still on the screen behind this.</Text>
      <Suspense fallback={null}>
        <SignInForm onSignedIn={() => void done()} />
      </Suspense>
    </Modal>
  );
}
