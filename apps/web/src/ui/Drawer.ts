// What slides in from the side, which comes when it is first opened.
import { late } from './late.tsx';

export const Drawer = late(() => import('./drawerNow.ts'));
