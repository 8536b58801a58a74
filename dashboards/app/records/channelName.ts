import type { HeatRecordView } from '../../../shared/api/types.ts';
import { measures, positionWords } from '../../common/words.ts';
import { recordWords } from './words.ts';

/** A probe's channel as people call it: `edge 0.15 m`. */
export function channelName({ placements }: HeatRecordView, placementId: string): string {
  const placement = placements.find(({ id }) => id === placementId);
  if (placement === undefined)
    return placementId.endsWith(':moisture') ? recordWords.moistureByHand : recordWords.byHand;
  const { quantity, position, depthMetres } = placement;
  const name = quantity === 'moisture' ? recordWords.moisture : positionWords[position];
  return depthMetres === null ? name : recordWords.placed(name, measures.metres(depthMetres.toFixed(2)));
}

/** Placements whose hours are temperatures. */
export function heatIds({ placements, hours }: HeatRecordView): string[] {
  return Object.keys(hours.means).filter((id) => {
    const placement = placements.find((one) => one.id === id);
    return placement === undefined ? !id.endsWith(':moisture') : placement.quantity === 'temperature';
  });
}
