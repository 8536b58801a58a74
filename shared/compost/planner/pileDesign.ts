import type { Channel } from '../geometry/layout.ts';
import type { MaterialParameters } from '../pileModel/parameters.ts';
import { airLayoutOf, type CoreProbe } from './airLayout.ts';
import { type Container, containerOf, fillingOf } from './container.ts';
import { plannedMix } from './mixRanges.ts';
import { materialOfMix, pileOf } from './pilePlan.ts';
import type { Plan } from './plan.ts';
import type { CourseQuestion } from './predictCourse.ts';
import { courseQuestion } from './question.ts';

/** The form of a pile as planned: what its pictures are drawn from. Metres; x and y from the middle, z up. */
export interface PileForm {
  readonly outline: Container['outline'];
  readonly wallHeight: number;
  /** Height of the fresh pile. */
  readonly fillHeight: number;
  readonly wallPermeable: boolean;
  readonly topOpen: boolean;
  readonly baseOpen: boolean;
  readonly channels: readonly Channel[];
  /** Where the core probe belongs; null where the pile has no air at all. */
  readonly coreProbe: CoreProbe | null;
}

/** What a plan says of the pile built from it. */
export interface PileDesign {
  readonly form: PileForm;
  /** Mass as built; null when nothing was weighed. */
  readonly builtKilograms: number | null;
  readonly material: MaterialParameters | null;
  /** Null when the pile model lacks a number. */
  readonly question: CourseQuestion | null;
}

/** Works out a plan once more; null when its container cannot be. Pure, and takes some tenths of a second. */
export function designOf(plan: Plan): PileDesign | null {
  const room = containerOrNull(plan);
  if (room === null) return null;
  const { figures, ranges } = plannedMix(plan);
  const { fillHeight } = fillingOf(room, figures?.cubicMetres ?? null);
  const air = airLayoutOf(plan.container, room, fillHeight);
  const made = figures === null ? null : materialOfMix(figures, plan.running.startCelsius);
  const material = made !== null && 'material' in made ? made.material : null;
  const channels = air?.channels ?? [];
  const size = { cubicMetres: figures?.cubicMetres ?? null, channelCount: channels.length };
  const { wallPermeable, topOpen, baseOpen } = plan.container;
  return {
    form: {
      ...{ outline: room.outline, wallHeight: room.height, fillHeight, wallPermeable, topOpen, baseOpen },
      ...{ channels, coreProbe: air?.probe ?? null },
    },
    builtKilograms: figures?.wetKilograms ?? null,
    material,
    question:
      material === null || ranges === null
        ? null
        : courseQuestion(plan, pileOf(plan, room, size, material), ranges),
  };
}

function containerOrNull(plan: Plan): Container | null {
  try {
    return containerOf(plan.container);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
