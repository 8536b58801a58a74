/** What to do about a message that was set aside, by what its reason says. The first that fits. */
const advice: readonly (readonly [sign: RegExp, what: string])[] = [
  [
    /unknown probe/,
    'Enrol this probe under Probes with exactly this device name, or put the right name into it.',
  ],
  [/was revoked/, 'It was shut out. Make it a new password under Probes if it should send again.'],
  [/may not publish|nobody reads topic/, 'Correct its topic: the one it needs is shown with its credential.'],
  [
    /does not belong to probe|sent as|does not belong to yard/,
    'The base name in its message must be its own device name followed by _, and the topic that of its own yard.',
  ],
  [
    /no unit given|unit "/,
    'Give every record its unit as "u": Cel for temperature, / for moisture as a share, %EL or V for the battery.',
  ],
  [
    /in the future|years ago|absolute time|when it was measured/,
    'Set its clock, or let it send how old each reading is ("t": -300 is five minutes ago) without a base time.',
  ],
  [/payload of \d+ bytes|too large/, 'Send less at once: split what is buffered into several messages.'],
  [
    /JSON|CBOR|SenML|record|pack|array/i,
    'Its message is no SenML pack. Compare it with the example beside its credential.',
  ],
];

const otherwise =
  'Compare what it sent with the example beside its credential; the reason says what was wrong.';

/** What to do next about a message that could not be taken in. */
export function setAsideAdvice(reason: string): string {
  return advice.find(([sign]) => sign.test(reason))?.[1] ?? otherwise;
}
