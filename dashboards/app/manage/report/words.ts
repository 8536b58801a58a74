import type { Priority } from '../../../../shared/alarms/alarm.ts';

/** Words of the monthly alarm report, in one place so that they can be translated. */
export const text = {
  title: 'Alarm report',
  lead: 'What a month of alarms was like for the people whose phones they rang: how many texts, at night too, and how many led to something done. Alarms nobody can do anything about are the first to change.',
  month: 'Month',
  earlier: 'The month before',
  later: 'The month after',
  print: 'Print it, or save it as PDF',
  made: 'Made',
  upTo: 'So far, up to',
  zone: "by the yard's clock",
  quiet: 'No texts and no alarms in this month.',
  short: 'In short',
  people: 'Texts to each person',
  peopleHint: 'Night is 22:00 to 06:00. A text that tells several alarms together counts once.',
  person: 'Person',
  texts: 'Texts',
  aDay: 'A day',
  atNight: 'At night',
  busiestDay: 'Busiest day',
  tenMinutes: 'Most in 10 min',
  none: 'none',
  acted: 'Acted upon',
  actedWords: '{acted} of {texted} alarms people were texted about were answered or worked on within 12 h.',
  nobodyTexted: 'Nobody was texted about an alarm.',
  figures: 'Beside what is aimed at',
  figuresHint:
    'These aims come from the alarm standards of process plants as others restate them, or are our own choice; each row says which. On a small yard a single bad day misses some of them.',
  figure: 'Figure',
  value: 'Value',
  aim: 'Aim',
  atLeast: 'at least',
  atMost: 'at most',
  met: 'met',
  missed: 'missed',
  noValue: 'nothing to count',
  from: 'From',
  worst: 'The ten alarms with most texts',
  alarm: 'Alarm',
  times: 'Times',
  hours: 'Hours on',
  chattering: 'Came and went too fast',
  chatteringHint:
    'Ask more of the limit before it rings: a longer on-delay or a wider deadband. Try it on the pile’s own past.',
  noChattering: 'No alarm came and went too fast.',
  held: 'held back {count} times',
  stale: 'On for more than a day, now',
  staleHint: 'Each needs somebody to do something, or a limit that fits the pile.',
  noStale: 'No alarm has been on for more than a day.',
  staleInSpan: 'In the month {count} alarms were on for more than a day.',
  since: 'since',
  tune: 'Try its limits',
  openPile: 'Open the pile',
  priorities: 'By priority',
  hidden: 'Hidden',
  hiddenWords:
    'made quiet {shelved} times, hidden by design {suppressed} times, taken out of service {outOfService} times',
  grouped: '{count} of the texts told several alarms together',
  texted: '{texts} texts, {activations} alarms',
} as const;

export const priorityOrder: readonly Priority[] = ['highest', 'high', 'medium', 'low'];

/** A sentence with its numbers filled in. */
export function filled(sentence: string, values: Readonly<Record<string, string | number>>): string {
  return sentence.replaceAll(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}
