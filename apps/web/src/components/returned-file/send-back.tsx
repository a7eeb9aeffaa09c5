import { Button, Textarea } from '@mantine/core';
import { useState } from 'react';
import { Confirm, said } from '../feedback/index.ts';

interface Props {
  /** findings without an answer */
  open: number;
  size: 'sm' | 'lg';
  send: (note: string) => Promise<unknown>;
}

/** Puts a returned file before the quality manager again. */
export function SendBack({ open, size, send }: Props) {
  const [asking, setAsking] = useState(false);
  const [note, setNote] = useState('');
  return (
    <>
      <div>
        <Button size={size} onClick={() => setAsking(true)}>
          Send to review again
        </Button>
      </div>
      <Confirm
        title="Send to review again?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Send"
        onConfirm={async () => {
          await send(note);
          said('The file is with the quality manager.');
        }}
      >
        {open > 0 && <p>Findings without an answer: {open}.</p>}
        <Textarea
          label="Note"
          description="May be left out."
          autosize
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
      </Confirm>
    </>
  );
}
