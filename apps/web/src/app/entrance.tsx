import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Entrance } from '../features/entrance/entrance.tsx';

export function start(root: HTMLElement): void {
  createRoot(root).render(
    <StrictMode>
      <Entrance />
    </StrictMode>,
  );
}
