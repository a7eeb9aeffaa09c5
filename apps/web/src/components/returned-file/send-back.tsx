import { Button } from '@mantine/core';
import { useState } from 'react';
import { ConfirmWords, said } from '../feedback/index.ts';

interface Props {
  /** findings without an answer */
  open: number;
  size: 'sm' | 'lg';
  send: (note: string) => Promise<unknown>;
}

/** Puts a returned file before the quality manager again. */
export function SendBack({ open, size, send }: Props) {
  const [asking, setAsking] = useState(false);
  return (
    <>
      <div>
        <Button size={size} onClick={() => setAsking(true)}>
          Send to review again
        </Button>
      </div>
      <ConfirmWords
        title="Send to review again?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Send"
        label="Note"
        onConfirm={async (note) => {
          await send(note);
          said('The file is with the quality manager.');
        }}
      >
        {open > 0 && <p>Findings without an answer: {open}.</p>}
      </ConfirmWords>
    </>
  );
}
