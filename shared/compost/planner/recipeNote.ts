import type { AirLayout } from './airLayout.ts';
import type { BuildSheet } from './buildSheet.ts';
import type { MixFigures } from './mixFigures.ts';
import { round } from './round.ts';

/** Longest note the journal takes. */
const longestNote = 2000;

/** The recipe as one journal note: what went in, what it comes to by plan, channels and the core probe's place. */
export function recipeNote(
  planName: string,
  sheet: BuildSheet,
  figures: MixFigures,
  air: AirLayout | null,
): string {
  const name = planName.trim() === '' ? 'Built from a plan.' : `Built from the plan "${planName.trim()}".`;
  const parts = sheet.lines.map((line) => `${line.name} ${round(line.kilograms)} kg`);
  const water = sheet.litresOfWater > 0 ? [`water ${round(sheet.litresOfWater)} litres`] : [];
  const ratio = figures.carbonToNitrogen === null ? [] : [`C:N ${round(figures.carbonToNitrogen)}`];
  const air3 = figures.freeAirSpace === null ? [] : [`free air space ${round(figures.freeAirSpace * 100)} %`];
  const comesTo = [...ratio, `moisture ${round(figures.moistureFraction * 100)} %`, ...air3];
  const probe =
    air === null
      ? []
      : [
          `Channels: ${air.words}. Core probe: tip ${air.probe.depthFromTop.toFixed(2)} m below the top, ${air.probe.depthFromWall.toFixed(2)} m in from the wall, ${air.probe.z.toFixed(2)} m above the base.`,
        ];
  const note = [
    name,
    `Recipe: ${[...parts, ...water].join(', ')}.`,
    `By plan (not measured): ${comesTo.join(', ')}.`,
    ...probe,
  ].join(' ');
  return note.length <= longestNote ? note : `${note.slice(0, longestNote - 3)}...`;
}
