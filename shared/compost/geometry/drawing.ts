import type { OpenEnds } from './distanceToAir.ts';
import type { Channel, PlanLayout } from './layout.ts';
import { type ProbePlace, probePlace } from './probePlace.ts';

/** Numbers for a drawing, in metres; nothing about how it is drawn. */
export interface PlanDrawing {
  readonly wallRadius: number;
  readonly wallPermeable: boolean;
  readonly channels: readonly { readonly x: number; readonly y: number; readonly radius: number }[];
  readonly probe: { readonly x: number; readonly y: number };
  /** No air within this distance of the probe. */
  readonly distanceToAir: number;
  /** The line the section is cut along, from wall to wall through the axis and the probe. */
  readonly sectionLine: {
    readonly x1: number;
    readonly y1: number;
    readonly x2: number;
    readonly y2: number;
  };
}

/** A channel as the section shows it: where it stands along the section line, and whether the cut goes through it. */
export interface SectionChannel {
  readonly left: number;
  readonly right: number;
  readonly isCut: boolean;
}

/** Upright section through the axis and the probe. Across runs from -radius to radius, up from 0 to height. */
export interface SectionDrawing {
  readonly width: number;
  readonly height: number;
  readonly topOpen: boolean;
  readonly baseOpen: boolean;
  readonly channels: readonly SectionChannel[];
  readonly probe: { readonly across: number; readonly up: number };
  /** Heights at which the probe's tip would be just as far from air. */
  readonly probeHeights: readonly [low: number, high: number];
}

export interface CageDrawing {
  readonly plan: PlanDrawing;
  readonly section: SectionDrawing;
  readonly place: ProbePlace;
}

/** Plan and section of a round pile with its channels and the place of the core probe. */
export function drawCage(layout: PlanLayout, ends: OpenEnds): CageDrawing {
  const place = probePlace(layout, ends);
  const angle = Math.atan2(place.yMetres, place.xMetres);
  return { plan: planOf(layout, place, angle), section: sectionOf(layout, ends, place, angle), place };
}

function planOf(layout: PlanLayout, place: ProbePlace, angle: number): PlanDrawing {
  const [x, y] = [layout.radiusMetres * Math.cos(angle), layout.radiusMetres * Math.sin(angle)];
  return {
    wallRadius: layout.radiusMetres,
    wallPermeable: layout.wallPermeable,
    channels: layout.channels.map(({ xMetres, yMetres, radiusMetres }) => {
      return { x: xMetres, y: yMetres, radius: radiusMetres };
    }),
    probe: { x: place.xMetres, y: place.yMetres },
    distanceToAir: place.distanceToAirMetres,
    sectionLine: { x1: -x, y1: -y, x2: x, y2: y },
  };
}

function sectionOf(layout: PlanLayout, ends: OpenEnds, place: ProbePlace, angle: number): SectionDrawing {
  return {
    width: 2 * layout.radiusMetres,
    height: ends.heightMetres,
    topOpen: ends.topOpen,
    baseOpen: ends.baseOpen,
    channels: layout.channels.map((channel) => sectionChannel(channel, angle)),
    probe: { across: Math.hypot(place.xMetres, place.yMetres), up: place.zMetres },
    probeHeights: place.heightRangeMetres,
  };
}

/** A cut channel shows the width the cut goes through; one before or behind the cut shows its full width. */
function sectionChannel({ xMetres, yMetres, radiusMetres }: Channel, angle: number): SectionChannel {
  const across = xMetres * Math.cos(angle) + yMetres * Math.sin(angle);
  const away = Math.abs(yMetres * Math.cos(angle) - xMetres * Math.sin(angle));
  const isCut = away < radiusMetres;
  const half = isCut ? Math.sqrt(radiusMetres ** 2 - away ** 2) : radiusMetres;
  return { left: across - half, right: across + half, isCut };
}
