import { session } from '@countercheck/contracts';
import { useQueryClient } from '@tanstack/react-query';
import { keyOf, useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';

const systems = [
  { value: 'us', label: 'cfm', words: 'US units' },
  { value: 'si', label: 'L/s', words: 'SI units' },
] as const;

/** Shows every figure in the other units at once; what is stored does not change. */
export function UnitSwitch() {
  const me = useMe();
  const client = useQueryClient();
  const change = useAction(session.changeMe, {
    onDone: (answer) => void client.setQueryData(keyOf(session.me), answer),
  });
  const shown = change.isPending ? (change.variables.body.unitSystem ?? me.unitSystem) : me.unitSystem;
  return (
    <div className="units" role="group" aria-label="Units shown">
      {systems.map(({ value, label, words }) => (
        <button
          key={value}
          type="button"
          aria-pressed={shown === value}
          aria-label={`${words} (${label})`}
          onClick={() => shown !== value && change.mutate({ body: { unitSystem: value } })}
        >
          {label}
        </button>
      ))}
    </div>
  );
}
