import { notifications } from '@mantine/notifications';

/** Says briefly that something was done; the place where it appears is read out politely. */
export function said(message: string): void {
  notifications.show({
    message,
    color: 'verdigris',
    autoClose: 5000,
    closeButtonProps: { 'aria-label': 'Close the message' },
  });
}
