import { FileInput } from '@mantine/core';
import { headSchema, type Head } from '@countercheck/seal';
import { useState } from 'react';

/** A head that the person kept, to be looked up on the way of a proof. */
export function KeptHead({ onHead }: { onHead: (head: Head | undefined) => void }) {
  const [problem, setProblem] = useState<string>();
  const read = async (file: File | null) => {
    onHead(undefined);
    setProblem(undefined);
    if (!file) return;
    try {
      onHead(headSchema.parse(JSON.parse(await file.text())));
    } catch {
      setProblem('This is no head of the log; choose the file that was saved or sent as a head.');
    }
  };
  return (
    <FileInput
      label="A head you kept"
      description="Optional: the head of the log of a later day, as it was saved or sent to you (JSON)."
      placeholder="Choose the file"
      accept="application/json,.json"
      clearable
      clearButtonProps={{ 'aria-label': 'Take the head away' }}
      error={problem}
      onChange={(file) => void read(file)}
    />
  );
}
