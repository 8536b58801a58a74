import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { anySteps } from '../../shared/diagnosis/advice/anySteps.ts';
import { coldFallback, coldSteps } from '../../shared/diagnosis/advice/coldSteps.ts';
import { hotFallback, hotSteps } from '../../shared/diagnosis/advice/hotSteps.ts';
import { waterFallback, waterSteps } from '../../shared/diagnosis/advice/waterSteps.ts';
import { checks } from '../../shared/diagnosis/checks.ts';
import { composeAlarmText } from '../../shared/messages/compose.ts';
import { septetCount } from '../../shared/messages/gsm.ts';
import { english } from '../../shared/messages/words/english.ts';
import { catalogues, languages, phrase } from '../../shared/messages/words/languages.ts';
import { milestoneIds, milestoneWords } from '../../shared/rules/milestones.ts';

/** Every text of a catalogue by its path. */
function textsOf(words: object, path = ''): [string, string][] {
  return Object.entries(words).flatMap(([key, one]) => {
    const at = path === '' ? key : `${path}.${key}`;
    if (typeof one === 'string') return [[at, one] as [string, string]];
    return Array.isArray(one) || at === 'phrases' ? [] : textsOf(one as object, at);
  });
}

const conditions = new URL('../../shared/rules/conditions/', import.meta.url);

/** Sentences conditions say to people, as they stand in their files. */
const ofConditions = readdirSync(conditions)
  .filter((name) => !name.endsWith('.test.ts'))
  .flatMap((name) => {
    const code = readFileSync(new URL(name, conditions), 'utf8');
    const said = code.slice(code.search(/\bwords: \(|\bwordsFor\(|wordsBelowFireDanger\(/));
    const quoted = [...said.matchAll(/(?:what:|firstAction:|\?|:\s|words\()\s*'([^']{6,})'/g)];
    const counted = [...said.matchAll(/what: `([^`]+)`/g)].map(([, text]) =>
      text!.replaceAll(/\$\{[^}]+\}/g, '7'),
    );
    return [...quoted.map(([, text]) => text!), ...counted];
  })
  .filter((text) => text.includes(' '));

/** Cautions and names of measured values, for the page behind a text's link. */
const ofPages = readdirSync(conditions)
  .filter((name) => !name.endsWith('.test.ts'))
  .map((name) => readFileSync(new URL(name, conditions), 'utf8'))
  .concat(
    ...['advice.ts', 'pileEvidence.ts'].map((name) =>
      readFileSync(new URL(`../${name}`, conditions), 'utf8'),
    ),
  )
  .flatMap((code) => {
    const cautions = [...code.matchAll(/[cC]autions[^[\n]*(?:\[\] = )?\[([^\]]*)\]/g)].flatMap(([, list]) =>
      [...list!.matchAll(/'([^']+)'/g)].map(([, text]) => text!),
    );
    const named = [...code.matchAll(/(?:ntry\(|bandEvidence\(|label: )'([^']+)'/g)].map(([, text]) => text!);
    return [...cautions, ...named];
  })
  .filter((text) => !text.includes('no source'));

const ofAdvice = [coldSteps, hotSteps, waterSteps, anySteps]
  .flatMap((steps) => Object.values(steps).flat())
  .concat(coldFallback, hotFallback, waterFallback)
  .flatMap(({ short }) => short ?? []);
const ofChecks = Object.values(checks).map(({ short }) => short);
const ofMilestones = milestoneIds.flatMap((id) => [milestoneWords[id].title, milestoneWords[id].nextStep]);
const sentences = [...new Set([...ofConditions, ...ofAdvice, ...ofChecks, ...ofMilestones])];

describe.each(languages.filter((language) => language !== 'en'))('the texts in %s', (language) => {
  const words = catalogues[language];

  test('say everything the English ones say, filling in the same', () => {
    const names = (text: string) => [...text.matchAll(/\{\w+\}/g)].map(([name]) => name).sort();
    const own = new Map(textsOf(words));
    for (const [path, text] of textsOf(english)) {
      // A reason in English would help nobody; the page says it.
      if (path === 'answers.refused') continue;
      expect(names(own.get(path) ?? ''), path).toEqual(names(text));
    }
  });

  test('are all in the GSM alphabet, so that none costs double', () => {
    for (const [path, text] of [...textsOf(words), ...Object.entries(words.phrases)])
      expect(septetCount(text.replaceAll(/[[\]{}]/g, '')), path).not.toBeNull();
  });

  test('have a translation of every sentence a condition, an advice or a milestone may say', () => {
    expect(sentences.length).toBeGreaterThan(110);
    const same = sentences.filter((sentence) => phrase(words, sentence) === sentence);
    expect(same, "to be added to this language's phrases (germanPhrases.ts)").toEqual([]);
  });

  test('have a translation of every caution and name of a value a page may say', () => {
    expect(new Set(ofPages).size).toBeGreaterThan(60);
    const same = [...new Set(ofPages)].filter((sentence) => phrase(words, sentence) === sentence);
    expect(same, "to be added to this language's cautions (germanCautions.ts)").toEqual([]);
  });

  test('keep the action and the code in one segment', () => {
    for (const firstAction of [...ofConditions, ...ofAdvice, ...ofChecks]) {
      const about = { name: 'Langer Name im Käfig', place: 'Bucht 3', what: 'stopped heating early' };
      const measured = { label: 'core', value: 34.4, limit: 40, unit: 'C' } as const;
      const more = {
        measured,
        temperatureUnit: 'C',
        lastedMinutes: 300,
        code: 'K74',
        canReply: true,
      } as const;
      const link = 'https://compost.gannet-row.example/a/AbCdEfGhIjKlMnOp';
      const text = composeAlarmText({ ...about, ...more, firstAction, link }, words);
      expect(septetCount(text)).toBeLessThanOrEqual(160);
      expect(text).toContain(phrase(words, firstAction));
      expect(text).toContain('K74');
    }
  });
});

test('words people text back with mean one thing in all languages', () => {
  const meanings = new Map<string, string>();
  for (const language of languages) {
    const { verbs, deeds } = catalogues[language].replies;
    for (const [meaning, spellings] of [...Object.entries(verbs), ...Object.entries(deeds)])
      for (const spelling of spellings) {
        expect(meanings.get(spelling) ?? meaning, spelling).toBe(meaning);
        meanings.set(spelling, meaning);
      }
  }
});

test('numbers in a sentence are kept in their order; what has no translation stays English', () => {
  const { de } = catalogues;
  expect(phrase(de, '3 of 12 probes silent')).toBe('3 von 12 Fühlern stumm');
  expect(phrase(de, 'something new')).toBe('something new');
});
