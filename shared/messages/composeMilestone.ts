import { fitTemplate, type TemplateValues } from './fitTemplate.ts';
import { parseTemplate } from './template.ts';
import { phrase } from './words/languages.ts';
import type { MessageWords } from './words/messageWords.ts';

export interface MilestoneText {
  readonly name: string;
  readonly place: string;
  /** In English: "cool enough for worms". */
  readonly title: string;
  readonly nextStep: string;
}

/** What a milestone's text gives up when it is too long, first to last. */
export const milestoneGivesUp = ['place', 'name'] as const;

/** One text, one SMS, about a milestone of a pile. */
export function composeMilestoneText(text: MilestoneText, words: MessageWords): string {
  return fitTemplate(parseTemplate(words.milestone.text), milestoneValues(text, words), milestoneGivesUp)
    .text;
}

/** What it fills in. */
export function milestoneValues(text: MilestoneText, words: MessageWords): TemplateValues {
  return {
    name: [text.name.trim(), text.name.trim().slice(0, 18)],
    place: [text.place.trim()],
    title: [phrase(words, text.title)],
    next: [phrase(words, text.nextStep)],
  };
}
