import { Button, Group, Modal } from '@mantine/core';
import { useState, type ReactNode } from 'react';
import { useFocusBack } from '../../lib/focus.ts';
import { Problem } from '../states/states.tsx';

interface ConfirmProps {
  title: string;
  opened: boolean;
  onClose: () => void;
  /** what happens, as the button says it */
  action: string;
  /** does it; stays open and says why when that fails */
  onConfirm: () => Promise<unknown>;
  grave?: boolean;
  disabled?: boolean;
  children?: ReactNode;
}

/** Asks before something that cannot simply be taken back. */
export function Confirm({
  title,
  opened,
  onClose,
  action,
  onConfirm,
  grave = false,
  disabled = false,
  children,
}: ConfirmProps) {
  const [error, setError] = useState<unknown>(null);
  const [busy, setBusy] = useState(false);
  useFocusBack(opened);

  async function confirm() {
    setBusy(true);
    setError(null);
    try {
      await onConfirm();
      onClose();
    } catch (problem) {
      setError(problem);
    } finally {
      setBusy(false);
    }
  }

  return (
    <Modal title={title} opened={opened} onClose={onClose} closeButtonProps={{ 'aria-label': 'Close' }}>
      <div className="stack">
        {children}
        {error !== null && <Problem error={error} />}
        <Group justify="flex-end" gap="xs">
          <Button variant="default" onClick={onClose}>
            Leave as it is
          </Button>
          <Button
            color={grave ? 'red' : 'verdigris'}
            loading={busy}
            disabled={disabled}
            onClick={() => void confirm()}
          >
            {action}
          </Button>
        </Group>
      </div>
    </Modal>
  );
}
