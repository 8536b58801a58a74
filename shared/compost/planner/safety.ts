/** What can hurt whoever builds a pile, and what to do about it. */
export interface Caution {
  readonly about: string;
  readonly words: string;
}

/**
 * Usual cautions, from the sanitation and safety pack section 5 (dust, Legionella, steam: partly from memory,
 * unconfirmed) and common practice; local codes and the people who know the site come first.
 */
export const buildCautions: readonly Caution[] = [
  {
    about: 'Lifting',
    words:
      'Wet material is heavy. Fill buckets half, carry close, two people for a full barrow, and take breaks.',
  },
  {
    about: 'Dust',
    words:
      'Dry leaves, litter and old compost give off mould spores. Damp them before tipping, stand upwind, wear a fitted dust mask (FFP2, N95 or better). People with asthma or a weak immune system should not build or turn.',
  },
  {
    about: 'Germs',
    words:
      'Manure, food waste and compost carry pathogens, and potting materials can carry Legionella. Wear gloves, cover cuts, keep hands from the mouth, wash before eating, keep tetanus cover current.',
  },
  {
    about: 'Steam and hot pipes',
    words:
      'A hot pile breathes out steam when it is opened or a pipe is pulled: long sleeves, gloves, no face above the hole.',
  },
  {
    about: 'Heat and fire',
    words:
      'Build away from buildings and fences. At 80 C (176 F) or more, or at smoke or glow: do not open, turn or drench it; keep people away and call the fire service.',
  },
  {
    about: 'Standing firm',
    words:
      'A full cage weighs a tonne or more. Level ground, panel ends fastened in several places, never climb on it.',
  },
  {
    about: 'Rules',
    words:
      'Animal by-products, food waste, sludge and selling compost are regulated. Ask the local authority first; this sheet shows no compliance.',
  },
];
