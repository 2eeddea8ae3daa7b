// The window over a screen, which comes when one is first opened.
import { late } from './late.tsx';

export const Modal = late(() => import('./modalNow.ts'));
