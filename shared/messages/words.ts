/**
 * Every word a text to a person is made of, in one place, so that it can be said in another language: a second object of
 * this shape is a translation. `{names}` stand for what is filled in and may be put in any order. What a condition is
 * called and what to do about it are said by the conditions themselves.
 */
export interface MessageWords {
  readonly alarm: {
    readonly limit: string;
    readonly lasted: string;
    readonly markSeen: string;
    readonly codeOnly: string;
    readonly link: string;
    readonly nextPerson: string;
    readonly nobodyAnswers: string;
  };
  readonly durations: { readonly minutes: string; readonly hours: string; readonly days: string };
  readonly flood: {
    readonly one: string;
    readonly many: string;
    readonly lookFirst: string;
    readonly andOthers: string;
    readonly openList: string;
    readonly link: string;
  };
  readonly several: {
    readonly morning: string;
    readonly more: string;
    readonly worst: string;
    readonly seeWall: string;
    readonly seeLink: string;
    readonly nextTexts: string;
  };
  readonly answers: {
    readonly help: string;
    readonly seen: string;
    readonly seenByOther: string;
    readonly stopped: string;
    readonly done: string;
    readonly doneWhat: string;
    readonly notAPile: string;
    readonly noQuietFire: string;
    readonly nothingStands: string;
    readonly unknownCode: string;
    readonly whichOne: string;
    readonly notAllowed: string;
    readonly tooLong: string;
    readonly refused: string;
    readonly deeds: Readonly<Record<string, string>>;
  };
  readonly status: {
    readonly allWell: string;
    readonly noReading: string;
    readonly pile: string;
    readonly andMore: string;
    readonly standing: string;
  };
  readonly watch: {
    readonly allWell: string;
    readonly notWell: string;
    readonly wasAway: string;
    readonly missedAlarms: string;
    readonly missedTexts: string;
    readonly missedNothing: string;
    readonly channelTrouble: string;
  };
  readonly tests: { readonly person: string; readonly channel: string };
  readonly digest: {
    readonly counts: string;
    readonly acted: string;
    readonly worst: string;
    readonly stale: string;
    readonly quietWeek: string;
    readonly link: string;
  };
}

export const english: MessageWords = {
  alarm: {
    limit: '(limit {limit})',
    lasted: 'for {duration}',
    markSeen: "Mark {code} seen on the yard's page.",
    codeOnly: 'Code {code}',
    link: 'Seen {code}: {link}',
    nextPerson: 'No answer from {names}.',
    nobodyAnswers: 'NOBODY ANSWERS, {count} told.',
  },
  durations: { minutes: '{count} min', hours: '{count} h', days: '{count} d' },
  flood: {
    one: '{count} alarm in a short time, told together:',
    many: '{count} alarms in a short time, told together:',
    lookFirst: 'Look first at {name}: {what}.',
    andOthers: '{kinds}, and others.',
    openList: 'Open the alarm list.',
    link: 'All: {link}',
  },
  several: {
    morning: '{yard}: {count} from the night that could wait: {kinds}.',
    more: '{yard}: and {count} more: {kinds}.',
    worst: 'First: {name}, {what} ({code}).',
    seeWall: 'See the wall.',
    seeLink: 'All: {link}',
    nextTexts: 'More like these from {time}; fire danger at once.',
  },
  answers: {
    help: 'Text back: seen K7 / stop K7 4h / done K7 watered (or turned) / status. K7 stands for the code in the text. Fire: call the fire service.',
    seen: '{code} seen: {what}, {name}. Thank you.',
    seenByOther: '{code} was seen already: {what}, {name}.',
    stopped: '{code} quiet until {time}: {what}, {name}. It is still judged.',
    done: '{code}: {deed} written down for {name}, and seen. Thank you.',
    doneWhat: '{code} seen. What was done? Text for example: done {code} watered',
    notAPile: '{code} is not about a pile: nothing was written down. Text seen {code} instead.',
    noQuietFire:
      '{code} is fire danger and stays loud. Text seen {code}. Keep away, do not open it, call the fire service.',
    nothingStands: '{yard}: no alarm stands that waits for an answer.',
    unknownCode: 'No alarm stands under {code}. Text status to see what does.',
    whichOne: 'Which one? Standing: {codes}. Text for example: seen {code}',
    notAllowed: '{code}: your role may not do this. Ask a keeper of the yard.',
    tooLong: '{code}: quiet for at most {longest}. Text for example: stop {code} 4h',
    refused: '{code}: {reason}.',
    deeds: {
      watered: 'watered',
      turned: 'turned',
      opened: 'opened',
      covered: 'covered',
      uncovered: 'uncovered',
      added: 'material added',
      moved: 'moved',
    },
  },
  status: {
    allWell: '{yard}: no alarm stands.',
    noReading: 'no reading',
    pile: '{name} {temperature}{alarm}',
    andMore: '+{count} more',
    standing: '{yard}: {count} standing.',
  },
  watch: {
    allWell: '{yard}: all well. {piles} piles watched, hottest core {hottest}. Nothing to do.',
    notWell: '{yard}: {count} standing, first {name}: {what} ({code}).',
    wasAway: '{yard}: was not watching from {from} to {to} ({duration}).',
    missedAlarms: '{count} alarms began meanwhile or stand now: see the list.',
    missedTexts: '{count} texts grew too old to send.',
    missedNothing: 'No alarm stands now.',
    channelTrouble: '{yard}: messages by {channel} do not leave: {detail}. Somebody has to put it right.',
  },
  tests: {
    person: '{yard}: test text for {name}. It works, nothing to do.',
    channel: 'Tilthwatch: this is a test. It works, nothing to do.',
  },
  digest: {
    counts: '{yard}, 7 days: {texts} texts, {activations} alarms.',
    acted: '{acted} of {texted} led to something done.',
    worst: 'Most: {name}, {what} ({count}).',
    stale: '{count} stand over a day.',
    quietWeek: '{yard}, 7 days: no texts, no alarms.',
    link: 'Report: {link}',
  },
};

/**
 * A template with its names filled in.
 * @throws RangeError when a name of the template has no value: a mistake of ours, or of a translation
 */
export function fill(template: string, values: Readonly<Record<string, string | number>>): string {
  return template.replaceAll(/\{(\w+)\}/g, (_whole, name: string) => {
    const value = values[name];
    if (value === undefined) throw new RangeError(`template "${template}": there is no value for {${name}}`);
    return String(value);
  });
}
