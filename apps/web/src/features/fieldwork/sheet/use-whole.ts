import { startTransition, useEffect, useState } from 'react';

/** What is done first is there first: false till a long list has been drawn with its beginning, then true. */
export function useWhole(): boolean {
  const [whole, setWhole] = useState(false);
  useEffect(() => startTransition(() => setWhole(true)), []);
  return whole;
}
