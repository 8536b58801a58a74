import type { Precondition, RulePath } from './ruleSet.ts';

/** `met` and `failed` only where the keeper wrote the fact down; otherwise the rule's condition is shown as open. */
export interface PreconditionCheck {
  readonly words: string;
  readonly state: 'met' | 'failed' | 'not-recorded';
}

/** Checks what a path presupposes against the largest piece size written down (metres; null when it was not). */
export function checkPreconditions(path: RulePath, largestPieceMetres: number | null): PreconditionCheck[] {
  return path.preconditions.map((condition) => check(condition, largestPieceMetres));
}

function check(condition: Precondition, largestPieceMetres: number | null): PreconditionCheck {
  if (condition.kind === 'stated') return { words: condition.words, state: 'not-recorded' };
  const words = `pieces no larger than ${sizeWords(condition.maximumMetres)}`;
  if (largestPieceMetres === null) return { words, state: 'not-recorded' };
  return { words, state: largestPieceMetres <= condition.maximumMetres ? 'met' : 'failed' };
}

function sizeWords(metres: number): string {
  return metres >= 0.1 ? `${Math.round(metres * 100)} cm` : `${Math.round(metres * 1000)} mm`;
}
