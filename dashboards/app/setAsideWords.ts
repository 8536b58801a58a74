/** What to do about a message that was set aside, in one place so that it can be translated. */
export const setAsideWords = {
  stranger: 'Enrol this probe under Probes with exactly this device name, or put the right name into it.',
  revoked: 'It was shut out. Make it a new password under Probes if it should send again.',
  topic: 'Correct its topic: the one it needs is shown with its credential.',
  name: 'The base name in its message must be its own device name followed by _, and the topic that of its own yard.',
  unit: 'Give every record its unit as "u": Cel for temperature, / for moisture as a share, %EL or V for the battery.',
  clock:
    'Set its clock, or let it send how old each reading is ("t": -300 is five minutes ago) without a base time.',
  size: 'Send less at once: split what is buffered into several messages.',
  format: 'Its message is no SenML pack. Compare it with the example beside its credential.',
  other: 'Compare what it sent with the example beside its credential; the reason says what was wrong.',
} as const;
