import type { MapPlace, YardMap } from '../../../shared/api/types.ts';
import { yardMapSchema } from '../../../shared/api/yardMap.ts';
import type { House } from '../house.ts';

const markOf = (yardId: string): string => `yard-map.${yardId}`;

/** Where each place is on the yard's map; empty when nobody drew one. */
export async function yardMap(house: Pick<House, 'records'>, yardId: string): Promise<readonly MapPlace[]> {
  const kept = await house.records.marks.get(markOf(yardId));
  return kept === null ? [] : yardMapSchema.parse(JSON.parse(kept)).places;
}

export function keepYardMap(house: Pick<House, 'records'>, yardId: string, map: YardMap): Promise<void> {
  return house.records.marks.set(markOf(yardId), JSON.stringify(map));
}
