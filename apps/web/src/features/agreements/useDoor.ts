// Keeps a signature on this phone and sends it at once where there is signal; says which of the two happened.
import { useState } from 'react';
import { useQueryClient } from '@tanstack/react-query';
import type { SignerShown } from '@backsight/contract/agreements';
import { newId } from '../../api/ids.ts';
import { useMe } from '../../api/people.ts';
import { keepSigning, sendSignings, type Signing } from '../../api/signings.ts';
import { saved } from '../../ui/saved.ts';

type Given = Omit<Signing, 'id' | 'signedAt'>;

/** `sign` answers false where the phone's store is full; the signature is then not kept. */
export function useDoor(signer: SignerShown, jobId: string): { sign: (given: Given) => Promise<boolean>; busy: boolean; full: boolean } {
  const me = useMe();
  const queries = useQueryClient();
  const [busy, setBusy] = useState(false);
  const [full, setFull] = useState(false);
  const sign = async (given: Given): Promise<boolean> => {
    const body = { ...given, id: newId(), signedAt: new Date().toISOString() };
    try {
      await keepSigning(me.id, { signerId: signer.id, jobId, signer: signer.name, body });
    } catch {
      setFull(true);
      return false;
    }
    setBusy(true);
    const took = await sendSignings(me.id);
    if (took) await Promise.all(['agreements', 'visit', 'jobs'].map((key) => queries.invalidateQueries({ queryKey: [key] })));
    setBusy(false);
    saved(took ? 'The signature was recorded.' : 'Kept on this phone; it is sent as soon as there is signal.');
    return true;
  };
  return { sign, busy, full };
}
