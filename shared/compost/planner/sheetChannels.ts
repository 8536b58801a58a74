import { materialsFor } from '../geometry/materials.ts';
import type { AirLayout } from './airLayout.ts';
import type { Container } from './container.ts';
import type { Plan } from './plan.ts';

/** Where one channel stands: from the middle of the floor, along and across, and how far out. Metres. */
export interface ChannelSpot {
  readonly number: number;
  readonly along: number;
  readonly across: number;
  readonly fromMiddle: number;
}

export interface SheetChannels {
  readonly words: string;
  readonly count: number;
  readonly diameter: number;
  /** Each pipe, with what stands out on top to pull it by. */
  readonly pipeLength: number;
  readonly spots: readonly ChannelSpot[];
  /** Cloth for a wall of wire; null for boards and boxes. */
  readonly clothLength: number | null;
  readonly clothHeight: number | null;
}

/** Ours: overlap to sew or peg, a hand folded over the rim and under, a grip to pull by. Three-metre pipes. */
const cloth = { overlap: 0.15, fold: 0.3 } as const;
const pipe = { standsOut: 0.3, stock: 3 } as const;

/** Pipes and cloth for the chosen channels. */
export function channelsOf(plan: Plan, container: Container, air: AirLayout): SheetChannels {
  const { channelDiameter, wallPermeable } = plan.container;
  const radius = container.around / (2 * Math.PI);
  const materials = materialsFor(
    {
      radiusMetres: radius,
      heightMetres: container.height,
      circumferenceMetres: container.around,
      floorAreaSquareMetres: container.floorArea,
      sideAreaSquareMetres: container.around * container.height,
      cubicMetres: container.cubicMetres,
      surfaceToVolume: (container.around * container.height + container.floorArea) / container.cubicMetres,
    },
    {
      fabricOverlapMetres: cloth.overlap,
      fabricFoldMetres: cloth.fold,
      coverTop: false,
      coverBase: false,
      channelCount: air.channels.length,
      channelExtraMetres: pipe.standsOut,
      stockLengthMetres: pipe.stock,
    },
  );
  return {
    words: air.words,
    count: air.channels.length,
    diameter: channelDiameter,
    pipeLength: materials.channelLengthMetres,
    spots: air.channels.map(({ xMetres, yMetres }, index) => ({
      number: index + 1,
      along: xMetres,
      across: yMetres,
      fromMiddle: Math.hypot(xMetres, yMetres),
    })),
    clothLength: wallPermeable ? materials.sideFabricLengthMetres : null,
    clothHeight: wallPermeable ? materials.sideFabricHeightMetres : null,
  };
}
