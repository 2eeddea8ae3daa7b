// What an act does that is not taken back by a button: said before it, beside its button.
import type { ReactNode } from 'react';
import classes from './note.module.css';

export const Follows = ({ children }: { children: ReactNode }): ReactNode => <p className={classes.follows}>{children}</p>;
