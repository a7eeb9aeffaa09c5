import './styles/library.css';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Providers } from './providers.tsx';
import { createAppRouter } from './router.tsx';

export function start(root: HTMLElement): void {
  const router = createAppRouter();
  createRoot(root).render(
    <StrictMode>
      <Providers>
        <RouterProvider router={router} />
      </Providers>
    </StrictMode>,
  );
}
