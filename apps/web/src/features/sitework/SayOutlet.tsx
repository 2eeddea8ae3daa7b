// One receptacle of a test in words.
import type { ReactNode } from 'react';
import type { Outlet } from '@backsight/domain/sitework/deviceTest';

export const SayOutlet = ({ outlet: { where, reached, appliance, runs, dead, back } }: { outlet: Outlet }): ReactNode => (
  <>
    {where}
    {reached ? '' : `: not reached, ${appliance}${runs ? ', runs' : ', does not run'}`}
    {dead ? '; went dead' : ''}
    {back === null ? '' : back ? '; live again' : '; still dead'}
  </>
);
