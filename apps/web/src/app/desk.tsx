import './styles/library.css';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createQueryClient } from '../lib/query.ts';
import { sessionQuery } from '../lib/session.ts';
import { Providers } from './providers.tsx';
import { createAppRouter } from './router.tsx';

export function start(root: HTMLElement): void {
  const client = createQueryClient();
  // Who is here is asked while the page's own chunk is on its way.
  void client.prefetchQuery(sessionQuery);
  const router = createAppRouter();
  createRoot(root).render(
    <StrictMode>
      <Providers client={client}>
        <RouterProvider router={router} />
      </Providers>
    </StrictMode>,
  );
}
