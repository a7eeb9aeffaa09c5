import './styles/library.css';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createQueryClient } from '../lib/query.ts';
import { Providers } from './providers.tsx';
import { createAppRouter } from './router.tsx';

export function start(root: HTMLElement): void {
  const client = createQueryClient();
  const router = createAppRouter(client);
  createRoot(root).render(
    <StrictMode>
      <Providers client={client}>
        <RouterProvider router={router} />
      </Providers>
    </StrictMode>,
  );
}
