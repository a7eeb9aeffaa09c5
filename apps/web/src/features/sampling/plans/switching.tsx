import { Button, Group } from '@mantine/core';
import { nextSeverity, switchingStart, type LotOutcome } from '@countercheck/sampling';
import { useState } from 'react';

/** Plays lots one after the other and says how the next one is inspected. */
export function Switching() {
  const [states, setStates] = useState([switchingStart]);
  const state = states.at(-1)!;
  const add = (own: Partial<LotOutcome> & { accepted: boolean }) =>
    setStates([...states, nextSeverity(state, { acceptanceNumber: 0, ...own })]);
  return (
    <fieldset className="stack">
      <legend>How the next lot is inspected, after what came before</legend>
      <p role="status">
        Lot {states.length}: <strong>{state.severity}</strong>. {state.why}
      </p>
      <Group gap="xs">
        <Button variant="default" size="compact-md" onClick={() => add({ accepted: true })}>
          Accepted
        </Button>
        <Button
          variant="default"
          size="compact-md"
          onClick={() => add({ accepted: true, acceptanceNumber: 2, acceptedOneStepTighter: true })}
        >
          Accepted, also a step stricter
        </Button>
        <Button variant="default" size="compact-md" onClick={() => add({ accepted: false })}>
          Not accepted
        </Button>
        <Button variant="subtle" size="compact-md" onClick={() => setStates([switchingStart])}>
          Begin again
        </Button>
      </Group>
    </fieldset>
  );
}
