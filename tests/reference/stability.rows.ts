import { expect } from 'vitest';
import { carbonMonoxidePpm } from '../../shared/compost/stability/carbonMonoxide.ts';
import { judgeCuringStart } from '../../shared/compost/stability/curing.ts';
import { judgeFinished } from '../../shared/compost/stability/finished.ts';
import { type HotAdvice, hotAdvice, hotLadder } from '../../shared/compost/stability/hotLadder.ts';
import {
  isBelowClassALimit,
  isOrganicCarbonToNitrogen,
  isRawManureAllowed,
} from '../../shared/compost/stability/publishedLimits.ts';
import {
  carbonOfCarbonDioxide,
  oxygenMilligramsFromMillimoles,
  oxygenMillimolesFromMilligrams,
} from '../../shared/compost/stability/respiration.ts';
import { readSelfHeatingTest, selfHeatingClass } from '../../shared/compost/stability/selfHeating.ts';
import { judgeWormBed, mayAddWorms } from '../../shared/compost/stability/worms.ts';
import type { CheckRow } from './checkRow.ts';

function row(id: string, source: string, status: string, check: CheckRow['check']): CheckRow {
  return { id, source, status, check };
}

function textOf(advice: HotAdvice): string {
  return [advice.title, ...advice.do, ...advice.doNot].join('. ');
}

const hotRows: CheckRow[] = [
  row('HOT-1', 'Strom 1985; Suler and Finstein', 'confirmed basis, ours band', () => {
    expect(hotAdvice(62, 'hot-bin').title).toBe('high-normal');
    expect(textOf(hotAdvice(62, 'hot-bin'))).not.toMatch(/fire/i);
  }),
  row('HOT-2', 'North Carolina DEQ', 'confirmed', () => {
    expect(textOf(hotAdvice(71.1, 'turned-windrow'))).toContain('turn and re-wet');
  }),
  row('HOT-3', 'Surrey Fire and Rescue 70-80 C', 'confirmed basis, ours wording', () => {
    const text = textOf(hotAdvice(78, 'hot-bin'));
    expect(text).toContain('open in small bites, hose ready');
    expect(text).toContain('every few hours');
  }),
  row('HOT-4', 'Surrey Fire and Rescue; hay 175 F', 'confirmed', () => {
    expect(hotAdvice(80.1, 'turned-windrow').title).toContain('do not open, call fire service first');
  }),
  row('HOT-5', 'hay 100 C critical; 93 C', 'ours (93 C from memory)', () => {
    expect(hotAdvice(95, 'hot-bin').band).toBe('fire');
    expect(hotAdvice(30, 'hot-bin', true).band).toBe('fire');
  }),
  row('HOT-6', 'section 5.3', 'ours', () => {
    const rungs = hotLadder.filter((band) => band.fromCelsius >= 80);
    expect(rungs.length).toBe(2);
    for (const { fromCelsius } of rungs) {
      const advice = hotAdvice(fromCelsius, 'turned-windrow');
      for (const line of [advice.title, ...advice.do, ...advice.doNot]) {
        expect(line).not.toMatch(/^(?!.*do not).*\b(turn|open|dig)\b/i);
      }
    }
  }),
];

const wormRows: CheckRow[] = [
  row('WORM-1', 'NC State; FAO', 'confirmed', () => {
    expect(judgeWormBed(24, 0.78).verdict).toBe('good');
  }),
  row('WORM-2', 'NC State 95 F', 'confirmed', () => {
    expect(judgeWormBed(35.5, 0.78).verdict).toBe('lethal');
  }),
  row('WORM-3', 'section 6', 'confirmed (secondary)', () => {
    expect([mayAddWorms(30), mayAddWorms(26.5)]).toEqual([false, true]);
  }),
];

/** The rest of the "done by temperature" rule held good, so that only the row's own facts decide. */
const quiet = { method: 'hot-bin', ageDays: 90, daysSinceHot: 40, daysSinceDisturbed: 3 } as const;

const curingRows: CheckRow[] = [
  row('CURE-1', 'AgriFutures', 'confirmed', () => {
    const turn = { peakBeforeCelsius: 60, peakSinceCelsius: 44, hoursSinceTurn: null };
    expect(judgeCuringStart(turn)).toBe('curing has started');
    expect(judgeCuringStart({ ...turn, peakSinceCelsius: 46 })).toBe('still heating after the turn');
  }),
  row('CURE-2', 'AgriFutures 5 C; ours', 'confirmed basis', () => {
    const cool = { coreMeanCelsius: 24, airMeanCelsius: 20, peakRiseSinceDisturbedCelsius: 4 };
    expect(judgeFinished({ ...quiet, ...cool, moistureFraction: 0.52 }).verdict).toBe('may be done');
  }),
  row('CURE-3', 'The Composting Handbook', 'confirmed basis', () => {
    const cool = { coreMeanCelsius: 24, airMeanCelsius: 20, peakRiseSinceDisturbedCelsius: 4 };
    const judged = judgeFinished({ ...quiet, ...cool, moistureFraction: 0.28 });
    expect(judged.verdict).toBe('cannot tell');
    expect(judged.nextStep).toContain('Re-wet and re-check');
  }),
];

function vesselRow(id: string, maximumCelsius: number, expected: string, status: string): CheckRow {
  return row(id, 'section 8.1', status, () => {
    const day = 86_400_000;
    const log = [20, maximumCelsius, 20].map((sampleCelsius, index) => ({
      timeMs: index * 3 * day,
      sampleCelsius,
      roomCelsius: 20,
    }));
    const result = readSelfHeatingTest(log);
    expect(result.riseCelsius).toBe(maximumCelsius - 20);
    expect([result.band.name, result.doubts]).toEqual([expected, []]);
  });
}

const testRows: CheckRow[] = [
  vesselRow('DEW-1', 28, 'V', 'mixed'),
  vesselRow('DEW-2', 35, 'IV', 'memory'),
  vesselRow('DEW-3', 45, 'III', 'memory'),
  vesselRow('DEW-4', 55, 'II', 'confirmed (50-60 C)'),
  vesselRow('DEW-5', 65, 'I', 'confirmed (60-70 C)'),
  row('DEW-6', 'edge convention', 'ours', () => {
    expect([selfHeatingClass(10).name, selfHeatingClass(10.1).name]).toEqual(['V', 'IV']);
  }),
  row('RESP-1', 'arithmetic', 'computed', () => {
    expect(Math.abs(carbonOfCarbonDioxide(16) - 4.367)).toBeLessThan(0.001);
  }),
  row('RESP-2', 'arithmetic', 'computed', () => {
    expect(Math.abs(oxygenMilligramsFromMillimoles(25) - 800)).toBeLessThan(0.1);
  }),
  row('RESP-3', 'arithmetic', 'computed', () => {
    expect(Math.abs(oxygenMillimolesFromMilligrams(400) - 12.5)).toBeLessThan(0.01);
  }),
  row('CO-1', 'arithmetic', 'computed', () => {
    expect(Math.abs(carbonMonoxidePpm(115) - 100.4)).toBeLessThan(0.2);
  }),
];

const limitRows: CheckRow[] = [
  row('CLSA-1', '15A NCAC 02T .1106', 'confirmed', () => {
    expect(isBelowClassALimit({ faecalColiformMpnPerGram: 999, salmonellaMpnPer4Grams: null })).toBe(true);
  }),
  row('CLSA-2', '15A NCAC 02T .1106', 'confirmed', () => {
    expect(isBelowClassALimit({ faecalColiformMpnPerGram: 1000, salmonellaMpnPer4Grams: null })).toBe(false);
  }),
  row('NOP-4', '7 CFR 205.203(c)(2)(i)', 'confirmed (secondary)', () => {
    expect([24, 25, 40, 41].map(isOrganicCarbonToNitrogen)).toEqual([false, true, true, false]);
  }),
  row('NOP-6', '7 CFR 205.203(c)(1)', 'confirmed (secondary)', () => {
    expect([119, 120].map((days) => isRawManureAllowed(days, true))).toEqual([false, true]);
  }),
  row('NOP-7', '7 CFR 205.203(c)(1)', 'confirmed (secondary)', () => {
    expect([89, 90].map((days) => isRawManureAllowed(days, false))).toEqual([false, true]);
  }),
];

export const rows: CheckRow[] = [...hotRows, ...wormRows, ...curingRows, ...testRows, ...limitRows];
