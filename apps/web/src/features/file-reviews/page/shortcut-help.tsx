import { Switch } from '@mantine/core';
import type { Shortcut } from './use-keys.ts';

interface Props {
  shortcuts: readonly Shortcut[];
  on: boolean;
  onSwitch: (on: boolean) => void;
}

/** What each letter does, and switching them off. */
export function ShortcutHelp({ shortcuts, on, onSwitch }: Props) {
  return (
    <div className="review-keys">
      <Switch
        label="Letters as shortcuts"
        description="They do nothing while you type or a dialog is open."
        checked={on}
        onChange={(event) => onSwitch(event.currentTarget.checked)}
      />
      {on && (
        <dl aria-label="Shortcuts">
          {shortcuts.map(({ key, does }) => (
            <div key={key}>
              <dt>
                <kbd>{key.toUpperCase()}</kbd>
              </dt>
              <dd>{does}</dd>
            </div>
          ))}
        </dl>
      )}
    </div>
  );
}
