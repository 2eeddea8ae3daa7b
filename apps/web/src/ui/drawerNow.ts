// The drawer itself, in a file of its own so that it is loaded alone.
import { Drawer, type DrawerProps } from '@mantine/core';
import type { ComponentType } from 'react';

export default Drawer as ComponentType<DrawerProps>;
