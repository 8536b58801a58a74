import { expect } from 'vitest';
import { evaluateSanitisation } from '../../shared/compost/sanitisation/evaluate.ts';
import type { SanitisationInput } from '../../shared/compost/sanitisation/input.ts';
import { defaultSanitisationPolicy as careful } from '../../shared/compost/sanitisation/policy.ts';
import { findRuleSet } from '../../shared/compost/sanitisation/ruleSets.ts';
import { meansOf, pileOf, type Spell } from '../../shared/compost/sanitisation/testPile.ts';
import {
  daysByEquation,
  daysByRegime,
  type TimeTemperatureEquation,
} from '../../shared/compost/sanitisation/timeTemperature.ts';
import { celsiusFromFahrenheit } from '../../shared/units/temperature.ts';
import type { CheckRow } from './checkRow.ts';

const equationSource = '40 CFR 503.32(a)(3)';

/** Expected to four significant digits, as the pack states. */
function equationRow(equation: TimeTemperatureEquation, celsius: number, days: string): CheckRow {
  return {
    id: `EPA-D${equation}-${celsius}`,
    source: equationSource,
    status: 'computed from confirmed equation',
    check: () => expect(Number(daysByEquation(equation, celsius).toPrecision(4))).toBe(Number(days)),
  };
}

const equationRows: CheckRow[] = [
  equationRow(2, 50, '13.17'),
  equationRow(2, 53, '5.007'),
  equationRow(2, 55, '2.628'),
  equationRow(2, 57, '1.379'),
  equationRow(2, 60, '0.5243'),
  equationRow(2, 65, '0.1046'),
  equationRow(2, 70, '0.02087'),
  equationRow(3, 50, '5.007'),
  equationRow(3, 53, '1.904'),
  equationRow(3, 55, '0.9990'),
  equationRow(3, 57, '0.5243'),
  equationRow(3, 60, '0.1993'),
  equationRow(3, 65, '0.03977'),
  equationRow(3, 70, '0.007936'),
  row('EPA-D3-70F', equationSource, 'computed from confirmed equation', () => {
    expect(daysByRegime('D', 70)).toBe(30 / 1440);
  }),
  row('EPA-DA-75F', equationSource, 'computed from confirmed equation', () => {
    expect(daysByEquation(2, 75) * 1440).toBeCloseTo(6.0, 2);
    expect(daysByRegime('A', 75)).toBe(20 / 1440);
  }),
  row('EPA-D-LOW', equationSource, 'confirmed', () => {
    for (const regime of ['A', 'B', 'C', 'D'] as const) expect(daysByRegime(regime, 49.9)).toBeNull();
  }),
  row('EPA-D-ID', 'arithmetic', 'computed', () => {
    for (const celsius of [50, 53.7, 61, 70]) {
      expect(Math.abs(daysByEquation(3, celsius) / daysByEquation(2, celsius + 3) - 1)).toBeLessThan(1e-3);
    }
  }),
  row('EPA-D-Z', 'arithmetic', 'computed', () => {
    expect(daysByEquation(2, 50) / daysByEquation(2, 50 + 50 / 7) / 10).toBeCloseTo(1, 6);
  }),
];

function row(id: string, source: string, status: string, check: CheckRow['check']): CheckRow {
  return { id, source, status, check };
}

interface Judged {
  readonly rule: string;
  readonly spells: readonly Spell[];
  readonly pile?: Partial<SanitisationInput> & { readonly turnedOnDays?: readonly number[] };
  readonly stepHours?: number;
  readonly continuity?: 'consecutive' | 'cumulative';
}

function judge({ rule, spells, pile = {}, stepHours = 1, continuity }: Judged) {
  const policy = { ...careful, continuity: continuity ?? null };
  return evaluateSanitisation(findRuleSet(rule), pileOf([meansOf(spells, 'core', stepHours)], pile), policy);
}

function isMet(judged: Judged): boolean {
  return judge(judged).outcome === 'consistent';
}

function steady(celsius: number, hours: number): Spell[] {
  return [{ celsius, hours }];
}

const appendixB = '40 CFR 503 Appendix B';
const inVessel = 'us-pfrp-in-vessel';
const windrow = 'us-pfrp-windrow';
const brokenRun: Spell[] = [
  { hours: 40, celsius: 56 },
  { hours: 1, celsius: 54.9 },
  { hours: 71, celsius: 56 },
];

const furtherReductionRows: CheckRow[] = [
  row('PFRP-V-1', appendixB, 'confirmed', () => {
    const result = judge({ rule: inVessel, spells: steady(55, 72) });
    expect(result.outcome).toBe('consistent');
    expect(result.satisfiedAtMs).toBe(72 * 3_600_000);
  }),
  row('PFRP-V-2', appendixB, 'confirmed', () => {
    const result = judge({ rule: inVessel, spells: steady(55, 71) });
    expect(result.outcome).toBe('not-yet');
    expect(result.missing).toEqual(['1 h more at or above 55 C, without a break (71.0 of 72 h so far).']);
  }),
  row('PFRP-V-3', appendixB, 'confirmed', () => {
    expect(isMet({ rule: inVessel, spells: steady(54.9, 72) })).toBe(false);
  }),
  row('PFRP-S-4', `${appendixB} + policy`, 'ours (policy)', () => {
    const result = judge({ rule: 'us-pfrp-static', spells: brokenRun, continuity: 'consecutive' });
    expect(result.outcome).toBe('not-yet');
    expect(result.plain.bestPeriodHours).toBe(71);
  }),
  row('PFRP-S-5', `${appendixB} + policy`, 'ours (policy)', () => {
    const pile = { method: 'aerated-static-pile' } as const;
    const result = judge({ rule: 'us-pfrp-static', spells: brokenRun, pile, continuity: 'cumulative' });
    expect(result.outcome).toBe('consistent');
    expect(result.plain.totalHours).toBe(111);
  }),
  row('PFRP-W-1', appendixB, 'confirmed', () => {
    expect(isMet({ rule: windrow, spells: steady(55, 360), pile: { turnedOnDays: [2, 5, 8, 11, 14] } })).toBe(
      true,
    );
  }),
  row('PFRP-W-2', appendixB, 'confirmed', () => {
    expect(isMet({ rule: windrow, spells: steady(55, 360), pile: { turnedOnDays: [2, 5, 8, 11] } })).toBe(
      false,
    );
  }),
  row('PFRP-W-3', appendixB, 'confirmed', () => {
    const pile = { turnedOnDays: [2, 4, 6, 8, 10, 12] };
    expect(isMet({ rule: windrow, spells: steady(55, 336), pile })).toBe(false);
  }),
  row('PFRP-W-4', appendixB, 'confirmed (rule), ours (reading)', () => {
    const spells = [...steady(40, 24), ...steady(55, 360)];
    const result = judge({ rule: windrow, spells, pile: { turnedOnDays: [0.5, 3, 6, 9, 12] } });
    expect(result.outcome).toBe('not-yet');
    expect(result.parts.find((part) => part.name === 'turnings')?.have).toBe(4);
  }),
];

const withPeak = (celsius: number): Spell[] => [
  { hours: 60, celsius: 41 },
  { hours: 4, celsius },
  { hours: 56, celsius: 41 },
];

const significantReductionRows: CheckRow[] = [
  row('PSRP-1', '40 CFR 503 App. B / 257 App. II', 'confirmed', () => {
    expect(isMet({ rule: 'us-psrp', spells: withPeak(55.1) })).toBe(true);
  }),
  row('PSRP-2', '40 CFR 257 App. II; 310 CMR 32.80', 'confirmed', () => {
    expect(isMet({ rule: 'us-psrp', spells: withPeak(55) })).toBe(false);
    expect(isMet({ rule: 'us-psrp-massachusetts', spells: withPeak(55) })).toBe(true);
  }),
  row('PSRP-3', '40 CFR 257 App. II; 310 CMR 32.80', 'confirmed', () => {
    const spells = [...steady(41, 60), ...steady(58, 6), ...steady(41, 53)];
    expect(isMet({ rule: 'us-psrp', spells })).toBe(false);
    expect(isMet({ rule: 'us-psrp-massachusetts', spells })).toBe(false);
  }),
];

const vectorSource = '40 CFR 503.33(b)(5)';
const vectorRows: CheckRow[] = [
  row('VAR-1', vectorSource, 'confirmed (secondary)', () => {
    expect(isMet({ rule: 'us-var-5', spells: steady(46, 336) })).toBe(true);
  }),
  row('VAR-2', vectorSource, 'confirmed (secondary)', () => {
    expect(isMet({ rule: 'us-var-5', spells: steady(44, 336) })).toBe(false);
  }),
  row('VAR-3', vectorSource, 'confirmed (secondary)', () => {
    expect(isMet({ rule: 'us-var-5', spells: [...steady(60, 312), ...steady(40, 24)] })).toBe(false);
  }),
];

const organicRows: CheckRow[] = [
  row('NOP-1', '7 CFR 205.203(c)(2)(ii)', 'confirmed (secondary)', () => {
    expect(isMet({ rule: 'us-nop-static', spells: steady(celsiusFromFahrenheit(131), 72) })).toBe(true);
  }),
  row('NOP-2', '7 CFR 205.203(c)(2)(ii)', 'confirmed (secondary)', () => {
    expect(isMet({ rule: 'us-nop-static', spells: steady(celsiusFromFahrenheit(171), 72) })).toBe(false);
    expect(isMet({ rule: inVessel, spells: steady(celsiusFromFahrenheit(171), 72) })).toBe(true);
  }),
  row('NOP-3', 'arithmetic', 'computed', () => {
    const [path] = findRuleSet('us-nop-static').paths;
    expect(Math.abs((path.band.upperCelsius ?? 0) - 76.67)).toBeLessThan(0.01);
  }),
  row('NOP-5', '7 CFR 205.203(c)(2)(iii)', 'confirmed (secondary)', () => {
    const pile = { turnedOnDays: [2, 5, 8, 11, 14] };
    expect(isMet({ rule: 'us-nop-windrow', spells: steady(60, 360), pile })).toBe(true);
  }),
];

const germanSource = 'BioAbfV Annex 2 no. 2.2.2.1';
const german = 'de-bioabfv';
const moistureOf = (value: number) => ({ moisture: [{ timeMs: 5 * 86_400_000, value }] });

const germanRows: CheckRow[] = [
  row('DE-1', germanSource, 'confirmed', () => {
    const result = judge({ rule: german, spells: steady(55, 336), pile: moistureOf(0.45) });
    expect([result.outcome, result.moisture]).toEqual(['consistent', 'wet-enough']);
  }),
  row('DE-2', germanSource, 'confirmed', () => {
    expect(isMet({ rule: german, spells: steady(60, 144) })).toBe(true);
  }),
  row('DE-3', germanSource, 'confirmed', () => {
    expect(isMet({ rule: german, spells: steady(60, 5.9 * 24), stepHours: 0.1 })).toBe(false);
  }),
  row('DE-4', germanSource, 'confirmed', () => {
    expect(isMet({ rule: german, spells: steady(65, 72) })).toBe(true);
  }),
  row('DE-5', germanSource, 'confirmed', () => {
    const result = judge({ rule: german, spells: steady(55, 336), pile: moistureOf(0.35) });
    expect([result.outcome, result.moisture]).toEqual(['consistent', 'too-dry']);
    expect(result.cautions.join(' ')).toContain('Moisture fell below 40 %');
  }),
];

const ukSource = 'Wales SI 2006/1293 Sch. 1';
const pieces = (largestPieceMetres: number) => ({ largestPieceMetres });

const europeanRows: CheckRow[] = [
  row('UK-1', ukSource, 'confirmed', () => {
    expect(isMet({ rule: 'uk-catering-reactor', spells: steady(60, 48), pile: pieces(0.4) })).toBe(true);
  }),
  row('UK-2', ukSource, 'confirmed', () => {
    expect(isMet({ rule: 'uk-catering-reactor', spells: steady(70, 1), pile: pieces(0.4) })).toBe(false);
    expect(isMet({ rule: 'uk-catering-reactor', spells: steady(70, 1), pile: pieces(0.06) })).toBe(true);
  }),
  row('UK-3', ukSource, 'confirmed', () => {
    const pile = { turnedOnDays: [2, 4, 6] };
    expect(isMet({ rule: 'uk-catering-housed-windrow', spells: steady(60, 192), pile })).toBe(true);
  }),
  row('UK-4', ukSource, 'confirmed', () => {
    const pile = { turnedOnDays: [2, 3, 6] };
    expect(isMet({ rule: 'uk-catering-housed-windrow', spells: steady(60, 192), pile })).toBe(false);
  }),
  row('EU-1', 'Regulation 142/2011 Annex V', 'confirmed (biogas), memory (composting)', () => {
    const rule = 'eu-abp-composting';
    expect(isMet({ rule, spells: steady(70, 1), stepHours: 0.25, pile: pieces(0.012) })).toBe(true);
    expect(judge({ rule, spells: steady(70, 1) }).statusWords).toBe('unconfirmed');
  }),
  row('EU-2', 'Regulation 2019/1009 Annex II', 'memory', () => {
    expect(isMet({ rule: 'eu-cmc-3', spells: steady(60, 144) })).toBe(false);
    expect(isMet({ rule: 'eu-cmc-3', spells: steady(60, 168) })).toBe(true);
  }),
  row('EU-3', 'Regulation 2019/1009; BioAbfV', 'confirmed / memory', () => {
    expect(isMet({ rule: german, spells: steady(60, 144) })).toBe(true);
    expect(isMet({ rule: 'eu-cmc-3', spells: steady(60, 144) })).toBe(false);
  }),
];

const guardRows: CheckRow[] = [
  row('TOL-2', 'section 9.3', 'ours', () => {
    const result = judge({ rule: inVessel, spells: steady(55.4, 72) });
    expect(result.plain.totalHours).toBe(72);
    expect(result.guarded.totalHours).toBe(0);
  }),
];

export const rows: CheckRow[] = [
  ...equationRows,
  ...furtherReductionRows,
  ...significantReductionRows,
  ...vectorRows,
  ...organicRows,
  ...germanRows,
  ...europeanRows,
  ...guardRows,
];
