import type { ConditionWords } from './condition.ts';
import type { PileView } from './pileView.ts';

/**
 * From here advice flips from "open it up" to "do not open it": about 80 C (reference pack 5.2-5.3: stacked-hay
 * guidance flips at 79.4 C; the threshold for compost is our choice).
 */
export const fireDangerCelsius = 80;

/** The pile is, or was within the last day, so hot that opening it could start flames, or is on its way there. */
export function isFireDanger(view: PileView): boolean {
  if (view.isActive('too-hot-fire-danger')) return true;
  return (view.hottestOfDayCelsius ?? Number.NEGATIVE_INFINITY) >= fireDangerCelsius;
}

/** What to say at fire danger, whatever else is wrong with the pile. */
export const fireDangerAction = 'Do NOT open, turn or dig. People away, upwind. Call the fire service.';

export const fireDangerCautions: readonly string[] = [
  'Smoke, glow or ash: treat it as a fire, call the emergency number.',
  'A falling reading after a very hot one is not safety: a burnt-out hollow or a dead probe reads cool.',
  'Switch forced air off. Do not drench it alone: water can flash to steam. Follow your local fire service.',
];

export const steamCautions: readonly string[] = [
  'Stand back from steam; long sleeves, gloves, no face over an opening.',
  'Never alone, and never climb on the pile.',
];

/** Replaces ordinary words by those for fire danger when the pile is, or just was, that hot. */
export function safeWords(view: PileView, words: ConditionWords): ConditionWords {
  if (!isFireDanger(view)) return words;
  return { what: words.what, firstAction: fireDangerAction, cautions: fireDangerCautions };
}
