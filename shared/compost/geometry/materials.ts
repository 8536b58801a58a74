import { requireNotNegative, requirePositive } from '../allowed.ts';
import type { CageSize } from './cage.ts';

export interface MaterialChoices {
  /** How far the fabric's ends lie over each other, and how much is folded over the rim and under the base. */
  readonly fabricOverlapMetres: number;
  readonly fabricFoldMetres: number;
  readonly coverTop: boolean;
  readonly coverBase: boolean;
  readonly channelCount: number;
  /** How far each channel stands out above the material (to be pulled by) and below it. */
  readonly channelExtraMetres: number;
  /** Length pipes are sold in. */
  readonly stockLengthMetres: number;
}

export interface Materials {
  readonly fabricSquareMetres: number;
  /** Strip to cut for the side: length around by height with folds. */
  readonly sideFabricLengthMetres: number;
  readonly sideFabricHeightMetres: number;
  readonly channelLengthMetres: number;
  readonly channelTotalMetres: number;
  /** Stock lengths to buy when each channel is one whole piece; `null` when a channel is longer than a stock length. */
  readonly stockLengths: number | null;
}

/** Fabric and channel pipe for a cage. Top and base are counted as discs; cut-off is not. */
export function materialsFor(cage: CageSize, choices: MaterialChoices): Materials {
  requireNotNegative('fabricOverlapMetres', choices.fabricOverlapMetres);
  requireNotNegative('fabricFoldMetres', choices.fabricFoldMetres);
  requireNotNegative('channelCount', choices.channelCount);
  requireNotNegative('channelExtraMetres', choices.channelExtraMetres);
  requirePositive('stockLengthMetres', choices.stockLengthMetres);
  const sideFabricLengthMetres = cage.circumferenceMetres + choices.fabricOverlapMetres;
  const sideFabricHeightMetres = cage.heightMetres + choices.fabricFoldMetres;
  const discs = Number(choices.coverTop) + Number(choices.coverBase);
  const channelLengthMetres = cage.heightMetres + choices.channelExtraMetres;
  const piecesPerStock = Math.floor(choices.stockLengthMetres / channelLengthMetres + 1e-9);
  return {
    fabricSquareMetres: sideFabricLengthMetres * sideFabricHeightMetres + discs * cage.floorAreaSquareMetres,
    sideFabricLengthMetres,
    sideFabricHeightMetres,
    channelLengthMetres,
    channelTotalMetres: choices.channelCount * channelLengthMetres,
    stockLengths: piecesPerStock === 0 ? null : Math.ceil(choices.channelCount / piecesPerStock),
  };
}
