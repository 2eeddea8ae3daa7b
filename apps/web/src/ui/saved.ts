// A short word at the edge of the screen that something was done.
import { notifications } from '@mantine/notifications';

export const saved = (message: string): void => {
  notifications.show({ message, color: 'lake', withBorder: true, autoClose: 5000, closeButtonProps: { 'aria-label': 'Close' } });
};
