/** Atoms per molecule of a substrate C_a H_b O_c N_d. */
export interface SubstrateFormula {
  readonly carbon: number;
  readonly hydrogen: number;
  readonly oxygen: number;
  readonly nitrogen: number;
}

/** Kilograms taken up or given off per kilogram of substrate oxidised. */
export interface OxidationPerKilogram {
  readonly oxygenKg: number;
  readonly waterKg: number;
  readonly carbonDioxideKg: number;
  readonly ammoniaKg: number;
}

const gramsPerMole = { carbon: 12.011, hydrogen: 1.008, oxygen: 15.999, nitrogen: 14.007 };
const oxygenGas = 2 * gramsPerMole.oxygen;
const water = 2 * gramsPerMole.hydrogen + gramsPerMole.oxygen;
const carbonDioxide = gramsPerMole.carbon + 2 * gramsPerMole.oxygen;
const ammonia = gramsPerMole.nitrogen + 3 * gramsPerMole.hydrogen;

/** Substrates of Haug's table (formulas from memory, unconfirmed). */
export const substrates = {
  glucose: { carbon: 6, hydrogen: 12, oxygen: 6, nitrogen: 0 },
  cellulose: { carbon: 6, hydrogen: 10, oxygen: 5, nitrogen: 0 },
  grass: { carbon: 23, hydrogen: 38, oxygen: 17, nitrogen: 1 },
  wood: { carbon: 295, hydrogen: 420, oxygen: 186, nitrogen: 1 },
  mixedRefuse: { carbon: 64, hydrogen: 104, oxygen: 37, nitrogen: 1 },
  foodGarbage: { carbon: 16, hydrogen: 27, oxygen: 8, nitrogen: 1 },
  sludge: { carbon: 10, hydrogen: 19, oxygen: 3, nitrogen: 1 },
  protein: { carbon: 16, hydrogen: 24, oxygen: 5, nitrogen: 4 },
  fat: { carbon: 50, hydrogen: 90, oxygen: 6, nitrogen: 0 },
} as const satisfies Record<string, SubstrateFormula>;

/**
 * Complete aerobic oxidation to carbon dioxide, water and ammonia: O2 = (4a + b - 2c - 3d)/4 and H2O = (b - 3d)/2 mol
 * per mol (computed).
 */
export function oxidationPerKilogram(formula: SubstrateFormula): OxidationPerKilogram {
  const { carbon: a, hydrogen: b, oxygen: c, nitrogen: d } = formula;
  const molar =
    a * gramsPerMole.carbon + b * gramsPerMole.hydrogen + c * gramsPerMole.oxygen + d * gramsPerMole.nitrogen;
  return {
    oxygenKg: (((4 * a + b - 2 * c - 3 * d) / 4) * oxygenGas) / molar,
    waterKg: (((b - 3 * d) / 2) * water) / molar,
    carbonDioxideKg: (a * carbonDioxide) / molar,
    ammoniaKg: (d * ammonia) / molar,
  };
}
