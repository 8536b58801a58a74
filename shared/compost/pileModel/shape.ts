import { requirePositive } from '../allowed.ts';

/** Outer form of a pile, metres. A windrow is a long heap of half-elliptical section. */
export type PileShape =
  | { readonly kind: 'cylinder'; readonly radiusMetres: number; readonly heightMetres: number }
  | {
      readonly kind: 'box';
      readonly widthMetres: number;
      readonly lengthMetres: number;
      readonly heightMetres: number;
    }
  | {
      readonly kind: 'windrow';
      readonly widthMetres: number;
      readonly heightMetres: number;
      readonly lengthMetres: number;
    };

/** What the heat and air balances need of a shape. */
export interface ShapeFigures {
  readonly volumeM3: number;
  readonly sideAreaM2: number;
  readonly topAreaM2: number;
  readonly baseAreaM2: number;
  /** 3 for compact piles, 2 for a windrow long enough that its ends do not matter. */
  readonly dimensions: 2 | 3;
  /** Distance from the hot centre to the surface of the same body drawn as nested, similar shells. */
  readonly halfThicknessMetres: number;
}

function finish(
  volumeM3: number,
  areas: [side: number, top: number, base: number],
  dimensions: 2 | 3,
): ShapeFigures {
  const [sideAreaM2, topAreaM2, baseAreaM2] = areas;
  const halfThicknessMetres = (dimensions * volumeM3) / (sideAreaM2 + topAreaM2 + baseAreaM2);
  return { volumeM3, sideAreaM2, topAreaM2, baseAreaM2, dimensions, halfThicknessMetres };
}

/** Perimeter of half an ellipse (Ramanujan's approximation of the whole, halved), metres. */
function halfEllipsePerimeter(halfWidth: number, height: number): number {
  const ratio = ((halfWidth - height) / (halfWidth + height)) ** 2;
  return (Math.PI / 2) * (halfWidth + height) * (1 + (3 * ratio) / (10 + Math.sqrt(4 - 3 * ratio)));
}

/**
 * Volume and areas of a shape. For nested similar shells volume = area x half-thickness / dimensions holds exactly.
 * @throws RangeError when a length is not above 0.
 */
export function shapeFigures(shape: PileShape): ShapeFigures {
  for (const [name, value] of Object.entries(shape))
    if (name !== 'kind') requirePositive(name, value as number);
  if (shape.kind === 'cylinder') {
    const plan = Math.PI * shape.radiusMetres ** 2;
    const side = 2 * Math.PI * shape.radiusMetres * shape.heightMetres;
    return finish(plan * shape.heightMetres, [side, plan, plan], 3);
  }
  if (shape.kind === 'box') {
    const plan = shape.widthMetres * shape.lengthMetres;
    const side = 2 * (shape.widthMetres + shape.lengthMetres) * shape.heightMetres;
    return finish(plan * shape.heightMetres, [side, plan, plan], 3);
  }
  const section = (Math.PI / 4) * shape.widthMetres * shape.heightMetres;
  const arc = halfEllipsePerimeter(shape.widthMetres / 2, shape.heightMetres);
  const base = shape.widthMetres * shape.lengthMetres;
  return finish(
    section * shape.lengthMetres,
    [(arc * shape.lengthMetres) / 2, (arc * shape.lengthMetres) / 2, base],
    2,
  );
}
