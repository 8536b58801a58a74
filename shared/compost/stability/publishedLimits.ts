/** Small published limits around a finished pile: starting C:N, raw manure before harvest, Class A microbes. */

/** Starting carbon to nitrogen ratio the US organic rule allows, ends included (7 CFR 205.203(c)(2)(i), secondary). */
export const organicCarbonToNitrogen = { minimum: 25, maximum: 40 } as const;

/** Whether a starting C:N ratio lies in the US organic range. */
export function isOrganicCarbonToNitrogen(ratio: number): boolean {
  return ratio >= organicCarbonToNitrogen.minimum && ratio <= organicCarbonToNitrogen.maximum;
}

/** Least days between raw manure and harvest under the US organic rule (7 CFR 205.203(c)(1), secondary). */
export function rawManureIntervalDays(edibleTouchesSoil: boolean): number {
  return edibleTouchesSoil ? 120 : 90;
}

/** Whether raw manure put on this many days before harvest is allowed by the US organic rule. */
export function isRawManureAllowed(daysBeforeHarvest: number, edibleTouchesSoil: boolean): boolean {
  return daysBeforeHarvest >= rawManureIntervalDays(edibleTouchesSoil);
}

/** Results of a product test per gram of dry solids; null where it was not tested. */
export interface MicrobeTest {
  readonly faecalColiformMpnPerGram: number | null;
  readonly salmonellaMpnPer4Grams: number | null;
}

/** US Class A limits; a value must be below its limit (15A NCAC 02T .1106, confirmed). */
export const classALimits = { faecalColiformMpnPerGram: 1000, salmonellaMpnPer4Grams: 3 } as const;

/**
 * Whether either organism is below its Class A limit; one of the two is enough. Temperature must be shown as well:
 * this is never the whole of Class A.
 */
export function isBelowClassALimit(test: MicrobeTest): boolean {
  const { faecalColiformMpnPerGram: coliform, salmonellaMpnPer4Grams: salmonella } = test;
  const coliformLow = coliform !== null && coliform < classALimits.faecalColiformMpnPerGram;
  return coliformLow || (salmonella !== null && salmonella < classALimits.salmonellaMpnPer4Grams);
}
