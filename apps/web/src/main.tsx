// Entry of the web app: styles, theme, queries, router.
import './app/components.css';
import './app/tokens.css';
import './app/base.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { MantineProvider } from '@mantine/core';
import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { loadDrafts } from './api/phone/drafts.ts';
import { loadOutbox } from './api/phone/outbox.ts';
import { reloadPhotos } from './api/phone/photos.ts';
import { restoreReplies } from './api/phone/replies.ts';
import { loadSignings } from './api/signings.ts';
import { queryClient } from './app/queryClient.ts';
import { router } from './app/router.tsx';
import { SignInAgain } from './app/signInAgain.tsx';
import { cssVariables, theme } from './app/theme.ts';
import { Saved } from './ui/Saved.tsx';

/** Where the browser keeps nothing the app still works, as long as it has a connection. */
await Promise.all([restoreReplies(queryClient), loadOutbox(), loadDrafts(), loadSignings(), reloadPhotos(false)]).catch(() => undefined);

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <MantineProvider theme={theme} cssVariablesResolver={cssVariables} forceColorScheme="light">
      <QueryClientProvider client={queryClient}>
        <RouterProvider router={router} />
        <SignInAgain />
        <Saved />
      </QueryClientProvider>
    </MantineProvider>
  </StrictMode>,
);
