import { Button, Group, Modal } from '@mantine/core';
import type { ReactNode } from 'react';
import { useFocusBack } from '../../lib/focus.ts';
import type { ContractForm } from '../../lib/forms/index.ts';
import { Problem } from '../states/states.tsx';

interface FormBodyProps<Values> {
  of: ContractForm<Values>;
  action: string;
  onCancel?: () => void;
  /** shows the server's problem somewhere else, e.g. beside a field */
  quiet?: boolean;
  children: ReactNode;
}

/** A form's fields, what the server said about them, and its buttons. */
export function FormBody<Values>({ of, action, onCancel, quiet = false, children }: FormBodyProps<Values>) {
  return (
    <form onSubmit={of.onSubmit} noValidate className="stack">
      {children}
      {of.problem !== null && !quiet && <Problem error={of.problem} />}
      <Group gap="xs">
        <Button type="submit" loading={of.sending}>
          {action}
        </Button>
        {onCancel && (
          <Button variant="default" onClick={onCancel}>
            Cancel
          </Button>
        )}
      </Group>
    </form>
  );
}

interface DialogProps {
  title: string;
  onClose: () => void;
  wide?: boolean;
  children: ReactNode;
}

/** A dialog that is there as long as it is rendered, so that it always starts afresh. */
export function Dialog({ title, onClose, wide = false, children }: DialogProps) {
  useFocusBack(true);
  return (
    <Modal
      title={title}
      opened
      onClose={onClose}
      size={wide ? 'xl' : 'lg'}
      closeOnClickOutside={false}
      closeButtonProps={{ 'aria-label': 'Close' }}
    >
      {children}
    </Modal>
  );
}
