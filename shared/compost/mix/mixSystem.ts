import { Matrix, SingularValueDecomposition, solve } from 'ml-matrix';
import { type Goal, goalTerms } from './goal.ts';
import type { Ingredient, Part } from './ingredient.ts';

export interface MixProblem {
  /** Amounts already decided; may be empty when a goal sets the total weight or volume. */
  readonly fixed: readonly Part[];
  /** One to three ingredients whose amounts are to be found; water may be one. */
  readonly unknowns: readonly Ingredient[];
  /** As many goals as unknowns. */
  readonly goals: readonly Goal[];
}

/** A mix that misses one goal and meets the rest. */
export interface Compromise {
  readonly missed: Goal;
  /** What the missed goal's quantity comes to instead. */
  readonly reached: number;
  readonly parts: readonly Part[];
}

export interface Infeasible {
  readonly feasible: false;
  /** The goal that cannot be reached; `null` when no single one is to blame. */
  readonly unreachable: Goal | null;
  /** Why, in plain words. */
  readonly why: string;
  /** Amounts the arithmetic asks for, in the order of the unknowns (some negative); `null` when there are none. */
  readonly wanted: readonly number[] | null;
  readonly compromises: readonly Compromise[];
}

/** Rows or columns that repeat each other to this share of the largest singular value count as the same. */
const singularShare = 1e-10;

/** Unknown amounts, negative ones included; `null` when the goals do not determine them. */
export function solveAmounts({ fixed, unknowns, goals }: MixProblem): number[] | null {
  const rows = goals.map((goal) => goalRow(goal, fixed, unknowns));
  const matrix = new Matrix(rows.map((row) => row.coefficients));
  const singular = new SingularValueDecomposition(matrix).diagonal;
  if (!(Math.min(...singular) > singularShare * Math.max(...singular))) return null;
  const amounts = solve(matrix, Matrix.columnVector(rows.map((row) => row.right))).to1DArray();
  const scale = Math.max(...amounts.map(Math.abs), ...fixed.map((part) => part.wetKilograms));
  if (scale === 0) return null;
  return amounts.map((amount) => (Math.abs(amount) < 1e-9 * scale ? 0 : amount));
}

/** One linear equation, scaled so that its largest coefficient is 1 and goals in different units compare. */
function goalRow(goal: Goal, fixed: readonly Part[], unknowns: readonly Ingredient[]) {
  const terms = goalTerms(goal);
  const lower = terms.isTotal ? 0 : terms.target;
  const weight = (each: Ingredient) => terms.part(each) - lower * terms.of(each);
  const coefficients = unknowns.map(weight);
  const already = fixed.reduce((sum, part) => sum + part.wetKilograms * weight(part.ingredient), 0);
  const scale = Math.max(...coefficients.map(Math.abs)) || 1;
  const right = (terms.isTotal ? terms.target : 0) - already;
  return { coefficients: coefficients.map((each) => each / scale), right: right / scale };
}

/** Unknown ingredients with their amounts. */
export function partsOf(unknowns: readonly Ingredient[], amounts: readonly number[]): Part[] {
  return unknowns.map((ingredient, index) => ({ ingredient, wetKilograms: amounts[index]! }));
}
