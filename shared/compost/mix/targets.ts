/**
 * Ranges to aim for, with where each was found: sources differ, so the planner shows them rather than averaging.
 * Source: reference pack 1.3. Moisture and free air space as fractions, bulk density kg/m3, temperature C,
 * pore oxygen as fraction by volume. CL = seen, CL2 = seen second-hand, MU = from memory (unconfirmed).
 */
export type TargetProperty =
  | 'carbon-to-nitrogen'
  | 'finished-carbon-to-nitrogen'
  | 'moisture'
  | 'pore-oxygen'
  | 'ph'
  | 'temperature'
  | 'bulk-density'
  | 'particle-millimetres'
  | 'free-air-space';

/** Low and high end; `null` where that end is open. */
export interface Range {
  readonly low: number | null;
  readonly high: number | null;
}

export interface TargetRange {
  readonly property: TargetProperty;
  readonly acceptable: Range | null;
  readonly preferred: Range | null;
  readonly source: string;
  readonly status: 'CL' | 'CL2' | 'CL, CL2' | 'MU';
}

const range = (low: number | null, high: number | null): Range => ({ low, high });

const about = (value: number): Range => range(value, value);

export const targets: readonly TargetRange[] = [
  target('carbon-to-nitrogen', range(20, 40), range(25, 30), 'NRAES-54 Table 2.1; NRCS NEH 637 ch. 2', 'CL2'),
  target('carbon-to-nitrogen', range(20, 40), range(25, 35), 'Cooperband 2002 Table 1', 'CL2'),
  target(
    'carbon-to-nitrogen',
    range(20, 60),
    range(25, 40),
    'The Composting Handbook (2021) Table 4.2',
    'CL',
  ),
  target('carbon-to-nitrogen', null, about(30), 'Cornell C/N page, at the start', 'CL'),
  target('finished-carbon-to-nitrogen', null, about(10), 'Cornell C/N page, when finished', 'CL'),
  target(
    'moisture',
    range(0.4, 0.65),
    range(0.5, 0.6),
    'NRAES-54, NEH 637; Composting Handbook Table 4.2',
    'CL, CL2',
  ),
  target(
    'moisture',
    range(0.35, 0.6),
    null,
    'Cornell: slows sharply below 35-40 %, nearly stops below 30 %',
    'CL',
  ),
  target('moisture', range(0.3, 0.6), range(0.5, 0.6), 'AgriFutures poultry composting guidelines', 'CL'),
  target('pore-oxygen', range(0.05, null), range(0.1, null), 'Cooperband 2002 Table 1', 'CL2'),
  target('ph', range(5.5, 9), range(6.5, 8), 'Cooperband 2002 Table 1', 'CL2'),
  target('temperature', range(43, 66), range(54, 60), 'Cooperband 2002 Table 1', 'CL2'),
  target('bulk-density', range(null, 593), null, 'Cooperband 2002 Table 1', 'CL2'),
  target('bulk-density', null, range(475, 593), 'Technical Note 24, Composting basics', 'CL2'),
  target('bulk-density', null, range(600, 700), 'Paul 2009, Theory and operation of composting', 'CL2'),
  target('bulk-density', range(null, 653), null, 'handbook guide, 1100 lb/yd3', 'MU'),
  target('bulk-density', range(null, 712), null, 'handbook guide, 1200 lb/yd3', 'MU'),
  target('particle-millimetres', range(null, 25), null, 'Cooperband 2002 Table 1', 'CL2'),
  target('particle-millimetres', range(3, 13), null, 'NRAES-54', 'MU'),
  target('free-air-space', range(0.2, null), range(0.35, 0.6), 'Technical Note 24, Composting basics', 'CL2'),
  target('free-air-space', null, range(0.35, 0.45), 'Paul 2009, Theory and operation of composting', 'CL2'),
];

export type TargetVerdict = 'preferred' | 'acceptable' | 'too low' | 'too high';

/** Where a value stands against one source's ranges; with no acceptable range printed, the preferred one decides. */
export function judgeAgainst(target: TargetRange, value: number): TargetVerdict {
  if (target.preferred !== null && place(target.preferred, value) === 0) return 'preferred';
  const outer = target.acceptable ?? target.preferred;
  const side = outer === null ? 0 : place(outer, value);
  if (side === 0) return 'acceptable';
  return side < 0 ? 'too low' : 'too high';
}

function place({ low, high }: Range, value: number): -1 | 0 | 1 {
  if (low !== null && value < low) return -1;
  return high !== null && value > high ? 1 : 0;
}

function target(
  property: TargetProperty,
  acceptable: Range | null,
  preferred: Range | null,
  source: string,
  status: TargetRange['status'],
): TargetRange {
  return { property, acceptable, preferred, source, status };
}
