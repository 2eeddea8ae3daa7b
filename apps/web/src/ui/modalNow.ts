// The window itself, in a file of its own so that it is loaded alone.
import { Modal, type ModalProps } from '@mantine/core';
import type { ComponentType } from 'react';

export default Modal as ComponentType<ModalProps>;
