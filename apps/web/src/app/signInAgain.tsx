// The session ended while a screen was open: sign in over it, so that nothing typed is lost.
import { useSyncExternalStore, type ReactNode } from 'react';
import { Modal, Text } from '@mantine/core';
import { useQueryClient } from '@tanstack/react-query';
import { SignInForm } from '../features/signIn/SignInForm.tsx';
import { isAsked, onAsked, signedInAgain } from './signedOut.ts';

export function SignInAgain(): ReactNode {
  const open = useSyncExternalStore(onAsked, isAsked);
  const queries = useQueryClient();
  const done = () => {
    signedInAgain();
    void queries.invalidateQueries();
  };
  return (
    <Modal opened={open} onClose={signedInAgain} title="Your session has ended" closeButtonProps={{ 'aria-label': 'Close' }}>
      <Text mb="md">Sign in again to go on. What you typed is still on the screen behind this.</Text>
      <SignInForm onSignedIn={done} />
    </Modal>
  );
}
