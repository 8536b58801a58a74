import { celsiusFromFahrenheit } from '../../units/temperature.ts';
import { mayBeTurned, type PileMethod } from '../../yard/method.ts';

export type HotBandId = 'normal' | 'high-normal' | 'too-hot' | 'small-bites' | 'do-not-open' | 'fire';

/** One rung: what to do and what not to do while the core reads between its lower edge and the next rung's. */
export interface HotBand {
  readonly id: HotBandId;
  readonly fromCelsius: number;
  /** A few words for a heading or a text message. */
  readonly title: string;
  readonly do: readonly string[];
  /** Said instead of `do` for a pile that is never turned. Null where the same words hold for both. */
  readonly doWithoutTurning: readonly string[] | null;
  readonly doNot: readonly string[];
  readonly source: string;
  readonly status: 'confirmed' | 'confirmed basis, our wording' | 'ours';
}

/**
 * The heat ladder of the sanitation reference, section 5.3. Advice flips on the way up: below 80 C a pile may be cooled
 * by opening it with care, from 80 C on it must stay shut. No rung from 80 C up ever tells anyone to turn or open it.
 */
export const hotLadder: readonly [HotBand, ...HotBand[]] = [
  {
    id: 'normal',
    fromCelsius: Number.NEGATIVE_INFINITY,
    title: 'not too hot',
    do: [],
    doWithoutTurning: null,
    doNot: [],
    source: 'below the ladder',
    status: 'ours',
  },
  {
    id: 'high-normal',
    fromCelsius: 60,
    title: 'high-normal',
    do: ['check that moisture is 50 to 60 %', 'plan a turn'],
    doWithoutTurning: [
      'check the moisture and water if it is low',
      'check that air gets in: channels, pipes or blower',
    ],
    doNot: ['do not add material rich in nitrogen'],
    source: 'Strom 1985; Suler and Finstein 1977; band ours',
    status: 'confirmed basis, our wording',
  },
  {
    id: 'too-hot',
    fromCelsius: 65,
    title: 'too hot: turn and re-wet',
    do: ['turn and re-wet', 'lower the pile', 'read it again within 24 hours'],
    doWithoutTurning: [
      're-wet',
      'check that air gets in: channels, pipes or blower',
      'read it again within 24 hours',
    ],
    doNot: ['do not cover it tightly or press it down'],
    source: 'North Carolina DEQ: act at 160 F (71 C)',
    status: 'confirmed',
  },
  {
    id: 'small-bites',
    fromCelsius: Math.ceil(celsiusFromFahrenheit(160) * 100) / 100,
    title: 'near the self-ignition window: open in small bites, hose ready',
    do: [
      'find out how large the hot area is',
      'open it in small bites with a charged hose ready, wet what is exposed and spread it thin',
      'stand back from the steam',
      'read it again every few hours',
    ],
    doWithoutTurning: null,
    doNot: [
      'do not walk or drive on top',
      'do not leave it overnight unwatched',
      'do not break the whole pile open dry',
    ],
    source: 'Surrey Fire and Rescue (70-80 C); North Carolina DEQ',
    status: 'confirmed basis, our wording',
  },
  {
    id: 'do-not-open',
    fromCelsius: 80,
    title: 'fire danger: do not open, call fire service first',
    do: ['stop work', 'keep people away and upwind', 'call the fire service before anything else is done'],
    doWithoutTurning: null,
    doNot: [
      'do not open or dig',
      'do not push probes in by hand',
      'do not blow air in; switch forced air off (unconfirmed)',
    ],
    source: 'Surrey Fire and Rescue; stacked hay guidance at 175 F (79.4 C)',
    status: 'confirmed',
  },
  {
    id: 'fire',
    fromCelsius: 93,
    title: 'treat as a fire: smouldering compost, deep-seated',
    do: ['get everyone away', 'ring the emergency number and say "smouldering compost, deep-seated"'],
    doWithoutTurning: null,
    doNot: [
      'do not rely on water on the surface: it runs through channels and can flash to steam (unconfirmed)',
      'do not come near from downwind',
      'do not enter a building or bay',
    ],
    source: 'hay critical at 100 C (confirmed); 93 C from memory (unconfirmed)',
    status: 'ours',
  },
];

export interface HotAdvice {
  readonly band: HotBandId;
  readonly title: string;
  readonly do: readonly string[];
  readonly doNot: readonly string[];
}

/**
 * The rung for a core temperature. Smoke, glow, ash, vent holes or a burnt smell mean fire at any reading: a burnt-out
 * hollow or a failed probe reads cool.
 */
export function hotAdvice(coreCelsius: number, method: PileMethod, signsOfFire = false): HotAdvice {
  const rung = signsOfFire
    ? hotLadder.at(-1)!
    : hotLadder.findLast((band) => coreCelsius >= band.fromCelsius)!;
  const isTurned = mayBeTurned(method);
  const title = isTurned ? rung.title : rung.title.replace('turn and re-wet', 're-wet');
  const steps = isTurned ? rung.do : (rung.doWithoutTurning ?? rung.do);
  return { band: rung.id, title, do: steps, doNot: rung.doNot };
}
