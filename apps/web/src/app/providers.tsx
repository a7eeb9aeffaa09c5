import { MantineProvider } from '@mantine/core';
import { Notifications } from '@mantine/notifications';
import { QueryClientProvider, type QueryClient } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { theme } from './theme.ts';

export function Providers({ client, children }: { client: QueryClient; children: ReactNode }) {
  return (
    <MantineProvider theme={theme} defaultColorScheme="auto">
      <QueryClientProvider client={client}>{children}</QueryClientProvider>
      <Notifications position="bottom-right" aria-live="polite" />
    </MantineProvider>
  );
}
