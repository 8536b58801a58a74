import { fireDangerAction } from '../rules/advice.ts';
import type { Measured } from '../rules/condition.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import { type AlarmText, alarmGivesUp, alarmValues } from './compose.ts';
import { milestoneGivesUp, milestoneValues } from './composeMilestone.ts';
import type { TemplateValues } from './fitTemplate.ts';
import type { WordingKey } from './wordings.ts';
import type { MessageWords } from './words/messageWords.ts';

/** What a preview is made from: the yard as it is, the rest invented. */
export interface ExampleYard {
  readonly yardName: string;
  readonly temperatureUnit: TemperatureUnit;
  /** Open piles; at least one is shown, an invented one where there is none. */
  readonly piles: readonly { readonly name: string; readonly place: string }[];
  /** Address of an answer link, as long as a real one; null where none is put in. */
  readonly link: string | null;
  readonly canReply: boolean;
}

/** One thing to say, ready to be filled into a template. */
export interface WordingExample {
  readonly values: TemplateValues;
  /** What goes first when it is too long. */
  readonly giveUp: readonly string[];
}

const celsius = (value: number, limit: number): Measured => ({ label: 'core', value, limit, unit: 'C' });

/** Kinds of alarms a template has to hold for: the usual one, fire danger, one with a long first action, one of a probe. */
const alarms: readonly Pick<AlarmText, 'what' | 'measured' | 'lastedMinutes' | 'firstAction'>[] = [
  {
    ...{ what: 'core too hot', measured: celsius(72.4, 71), lastedMinutes: 35 },
    firstAction: 'Do not turn it. Check the air channels are open, then wet it.',
  },
  { what: 'FIRE DANGER', measured: celsius(82.5, 80), lastedMinutes: 10, firstAction: fireDangerAction },
  {
    ...{ what: 'cooled too early', measured: celsius(51.2, 55), lastedMinutes: 1500 },
    firstAction: 'Squeeze a handful: if dry, wet while turning; if wet, turn in dry stuff.',
  },
  {
    ...{ what: 'probe silent', measured: { label: 'quiet', value: 130, limit: 60, unit: 'min' } },
    lastedMinutes: 130,
    firstAction: 'Check its battery, cable and signal; read the pile by hand meanwhile.',
  },
];

/** Things a template is tried with, of the yard's own piles; every kind of alarm with the longest name as well. */
export function wordingExamples(key: WordingKey, yard: ExampleYard, words: MessageWords): WordingExample[] {
  const piles = yard.piles.length > 0 ? yard.piles : [{ name: 'Cage 1', place: 'bay 1' }];
  if (key === 'alarm.text') return alarmExamples(piles, yard, words);
  if (key === 'milestone.text') {
    const said = {
      title: 'time to pull the air channels',
      nextStep: 'Pull one gently: if the hole stands open, pull the rest; mind steam. Log it.',
    };
    return piles
      .slice(0, 3)
      .map((pile) => ({ values: milestoneValues({ ...pile, ...said }, words), giveUp: milestoneGivesUp }));
  }
  return [{ values: plainValues(piles, yard, words), giveUp: [] }];
}

function alarmExamples(
  piles: ExampleYard['piles'],
  { temperatureUnit, link, canReply }: ExampleYard,
  words: MessageWords,
): WordingExample[] {
  const longest = piles.toSorted((a, b) => b.name.length - a.name.length)[0]!;
  const usual = piles.slice(0, 3).map((pile) => ({ ...alarms[0]!, ...pile }));
  const others = alarms.slice(1).map((alarm) => ({ ...alarm, ...longest }));
  const escalated = { ...alarms[0]!, ...longest, opening: words.alarm.nobodyAnswers.replace('{count}', '3') };
  return [...usual, ...others, escalated].map((about) => ({
    values: alarmValues({ ...about, temperatureUnit, code: 'K74', link, canReply }, words),
    giveUp: alarmGivesUp,
  }));
}

/** One value for every name that texts of one sentence fill in. */
function plainValues(
  piles: ExampleYard['piles'],
  { yardName, temperatureUnit }: ExampleYard,
  { conditions, durations }: MessageWords,
): TemplateValues {
  const values: Readonly<Record<string, string>> = {
    ...{ yard: yardName.trim().slice(0, 24), name: piles[0]!.name.slice(0, 18), code: 'K74', count: '12' },
    ...{ what: conditions['too-hot-ceiling'], names: 'Ash, Robin', piles: String(piles.length) },
    ...{ kinds: `8 ${conditions['too-hot-ceiling']}, 4 ${conditions['probe-silent']}` },
    ...{ hottest: temperatureUnit === 'F' ? '150 F' : '66 C', from: '25 Nov 02:10', to: '25 Nov 05:40' },
    ...{ duration: durations.hours.replace('{count}', '4'), address: '+44...123', texts: '9' },
    ...{ detail: 'gateway answered 400: it refuses this message', activations: '11' },
  };
  return Object.fromEntries(Object.entries(values).map(([name, value]) => [name, [value]]));
}
