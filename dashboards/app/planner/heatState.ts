import { computed } from '@preact/signals';
import { partOfLine } from '../../../shared/compost/planner/amounts.ts';
import { type CompostedFirst, compostFirst } from '../../../shared/compost/planner/compostFirst.ts';
import { materialOfMix, pileOf } from '../../../shared/compost/planner/pilePlan.ts';
import type { CourseQuestion } from '../../../shared/compost/planner/predictCourse.ts';
import { courseQuestion } from '../../../shared/compost/planner/question.ts';
import { heatWords } from './heatWords.ts';
import { air, container, mix, plan } from './planState.ts';

/** A question for the pile model, or what is missing for it. */
export interface Asked {
  readonly question: CourseQuestion | null;
  readonly missing: string | null;
}

const nothing = (missing: string): Asked => ({ question: null, missing });

/** The course of the plan as it stands. */
export const freshCourse = computed<Asked>(() => {
  const { figures, ranges } = mix.value;
  const { container: room } = container.value;
  if (figures === null || ranges === null) return nothing(heatWords.needsMix);
  if (room === null) return nothing(heatWords.needsContainer);
  const made = materialOfMix(figures, plan.value.running.startCelsius);
  if ('missing' in made) return nothing(made.missing);
  const size = { cubicMetres: figures.cubicMetres, channelCount: air.value?.channels.length ?? 0 };
  return {
    question: courseQuestion(plan.value, pileOf(plan.value, room, size, made.material), ranges),
    missing: null,
  };
});

/** What composting first makes of the mix, or why it cannot be told. */
export const first = computed<{ readonly first: CompostedFirst | null; readonly why: string | null }>(() => {
  const parts = plan.value.lines.flatMap((line) => {
    const { part } = partOfLine(line, plan.value);
    return part === null ? [] : [{ ...part, key: line.key }];
  });
  const { lineKey, days } = plan.value.first;
  const known = lineKey === 'all' || parts.some(({ key }) => key === lineKey);
  const answer = compostFirst(parts, known ? lineKey : 'all', {
    days,
    packingFraction: plan.value.packingFraction,
    startCelsius: plan.value.running.startCelsius,
  });
  return answer.ok ? { first: answer.first, why: null } : { first: null, why: answer.why };
});

/** The course of the main pile after composting first. */
export const firstCourse = computed<Asked>(() => {
  const { ranges } = mix.value;
  const { container: room } = container.value;
  const composted = first.value.first;
  if (composted === null || ranges === null || room === null)
    return nothing(first.value.why ?? heatWords.needsBoth);
  const size = { cubicMetres: composted.figures.cubicMetres, channelCount: air.value?.channels.length ?? 0 };
  return {
    question: courseQuestion(plan.value, pileOf(plan.value, room, size, composted.material), ranges),
    missing: null,
  };
});
