// The state that the house lies in: as on file, as chosen, by its ZIP code, else that of the firm's office.
import { useQuery } from '@tanstack/react-query';
import { stateOfZip } from '@backsight/domain/shared/stateOfZip';
import { firmQuery } from '../../api/firm.ts';
import { propertyQuery, townsQuery } from '../../api/jobs.ts';
import { placeQuery } from '../../api/travel.ts';
import { placeAsked, type Draft } from './draft.ts';
import { useSettled } from './useSettled.ts';

/** What is on file of the house at this address. */
export function useOnFile({ address, town }: Draft) {
  const asked = useSettled({ address: address.trim(), town });
  return useQuery(propertyQuery(asked)).data;
}

export type HouseState = { /** Like US-WI; empty until anything is known. */ state: string; onFile: boolean };

export function useHouseState(draft: Draft): HouseState {
  const towns = useQuery(townsQuery).data ?? [];
  const byZip = useQuery(placeQuery(placeAsked(draft))).data?.state;
  const firms = useQuery(firmQuery).data?.offices[0]?.jurisdiction ?? '';
  const filed = useOnFile(draft)?.state;
  if (filed) return { state: filed, onFile: true };
  const ofTown = stateOfZip(towns.find(({ name }) => name === draft.town)?.zip ?? '');
  return { state: draft.state || byZip || ofTown || firms, onFile: false };
}
