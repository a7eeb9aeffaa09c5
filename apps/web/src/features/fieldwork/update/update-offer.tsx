import { Button } from '@mantine/core';
import { useEffect, useState } from 'react';
import { registerWorker } from './register-worker.ts';

/**
 * Registers what serves the pages without a network, and offers a newer version. Nothing reloads by itself, nor before what
 * was typed is in the store.
 */
export function UpdateOffer({ kept }: { kept: () => Promise<unknown> }) {
  const [take, setTake] = useState<(() => void) | null>(null);
  useEffect(() => registerWorker((takeOver) => setTake(() => takeOver)), []);
  if (!take) return null;
  return (
    <span role="status" className="update-offer">
      A new version is ready; what you typed stays.{' '}
      <Button size="sm" variant="default" onClick={() => void kept().then(take)}>
        Use it now
      </Button>
    </span>
  );
}
