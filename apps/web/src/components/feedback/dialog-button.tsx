import { Button, type ButtonProps } from '@mantine/core';
import { useState, type ReactNode } from 'react';
import { Dialog } from './form-dialog.tsx';

interface DialogButtonProps extends Pick<ButtonProps, 'size' | 'variant' | 'disabled'> {
  /** what the button says, and the dialog's title where it has no other */
  label: string;
  title?: string;
  /** tells buttons with the same label apart for whoever hears them */
  spoken?: string;
  wide?: boolean;
  /** what the dialog holds; it closes it when it is done */
  children: (close: () => void) => ReactNode;
}

/** A button and the dialog that it opens. */
export function DialogButton({ label, title, spoken, wide, children, ...button }: DialogButtonProps) {
  const [open, setOpen] = useState(false);
  const close = () => setOpen(false);
  return (
    <>
      <Button {...button} aria-label={spoken} onClick={() => setOpen(true)}>
        {label}
      </Button>
      {open && (
        <Dialog title={title ?? label} onClose={close} wide={wide ?? false}>
          {children(close)}
        </Dialog>
      )}
    </>
  );
}
