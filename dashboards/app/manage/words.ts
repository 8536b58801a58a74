import type { MessageView, ProbeHealthView } from '../../../shared/api/types.ts';
import type { Role } from '../../../shared/yard/people.ts';

type Channel = MessageView['channel'];

/** Words of the screens where a yard is set up and looked after, in one place so that they can be translated. */
export const partTitles = {
  piles: 'Piles',
  probes: 'Probes',
  health: 'Probe health',
  'set-aside': 'Set aside',
  people: 'People',
  duty: 'Duty',
  texts: 'Texts',
  report: 'Alarm report',
  gateways: 'Gateways',
  walls: 'Wall screens',
  service: 'Service',
  map: 'Yard map',
  yard: 'Yard',
} as const;

export const text = {
  whatToManage: 'What to manage',
  firstSteps: 'First steps',
  saveYard: 'Save',
  // Piles
  startPile: 'Start a pile',
  startThisPile: 'Start this pile',
  pileName: 'Name',
  pileNameHint: 'Short: it goes into texts.',
  place: 'Where it stands',
  placeHint: 'Bay 3, by the east fence...',
  method: 'How it is run',
  builtDaysAgo: 'Built how many days ago',
  pileRow: '{name}, {place}: {method}, built {day}',
  pileEnded: (day: string) => `, ended ${day}`,
  endIt: 'End it',
  endItHint: 'It leaves the wall and is judged no more; its record stays.',
  endPile: (name: string) => `End ${name}`,
  // Wall screens
  makeWallLink: 'Make a wall link',
  wallLinkMade: (label: string, time: string, person: string) => `${label}, made ${time} by ${person}`,
  takenBack: (time: string) => `taken back ${time}`,
  takeBack: 'Take it back',
  // People
  addPerson: 'Add a person',
  add: 'Add',
  save: 'Save',
  change: 'Change',
  name: 'Name',
  login: 'Sign-in name',
  mayDo: 'What they may do',
  phoneOptional: 'Phone for texts (optional)',
  phone: 'Phone for texts',
  phoneHint: 'With + and country code: +441632960123',
  textFrom: 'Text them from',
  language: 'Texts to them are in',
  giveLink: (name: string) => `Give this link to ${name}; it works once, to set a password:`,
  newLink: 'Make a link for a new password',
  maySignIn: 'May sign in',
  yes: 'yes',
  noShutOut: 'no, shut out',
  mayNotSignIn: 'may not sign in',
  personRow: '{name} ({login}), {facts}',
  textedAt: (phone: string, from: string) => `texted at ${phone} from "${from}"`,
  toldAt: (address: string, from: string) => `${address} from "${from}"`,
  notReached: 'cannot be reached by anything',
  ways: 'Other ways to reach them',
  wayEmail: 'E-mail address',
  wayWebhook: 'Web address that is called (webhook)',
  addEmail: 'Add the e-mail address',
  addWebhook: 'Add the web address',
  byEmail: 'E-mail',
  byWebhook: 'Web address',
  remove: 'Remove',
  gone: (why: string) => `no more: ${why}`,
  toldFrom: 'Told from',
  signOutEverywhere: 'Sign them out everywhere',
  // Gateways
  gatewaysLead: 'By what messages leave this yard, how each way stands, and a test of each.',
  noGateways: 'No way to send anything is set up: nobody can be told of an alarm.',
  unknownGateways:
    'No process that sends messages has told of itself: nobody can be told of an alarm. Start one with --only notify.',
  ready: 'Works, as far as can be told',
  notReady: 'Does not work',
  notLooked: 'Not looked at yet',
  needsSomebody: 'Somebody has to put it right.',
  standing: (detail: string) => `: ${detail}. `,
  lookedAt: (time: string) => `Looked at ${time}`,
  lastSent: 'Last message that went out',
  lastFailed: 'Last one that did not',
  never: 'none yet',
  notSetUp: 'Not set up',
  howTo: (channel: string) => `${channel}: How to set it up`,
  lookNow: 'Look now, send nothing',
  sendTest: 'Send a test',
  testTo: 'Send it to',
  noBrowser: 'No browser is told yet, so there is nothing to try.',
  noBrowserLink: 'Tell me on this phone',
  anotherAddress: 'another address...',
  address: 'Number or address',
  outcomeSent: 'Taken by the other side:',
  outcomeRetry: 'Not out, worth trying again:',
  outcomeGaveUp: 'Refused:',
  forTexts: 'alarms are texted by this one',
  // Health
  healthLead: 'Every probe: whether it is heard, believed, charged and checked, and what to do next.',
  noProbes: 'There is no probe yet.',
  heard: 'Last heard',
  neverHeard: 'never',
  signedIn: 'signed in now',
  battery: 'Battery',
  signal: 'Signal',
  clock: 'Clock',
  clockRight: 'right',
  clockAhead: (long: string) => `ahead by ${long}`,
  clockLate: (long: string) => `readings come late by ${long}`,
  signalIs: (dbm: number) => `${dbm} dBm`,
  doubted: 'Not believed, last 24 h',
  doubtedNone: (all: number) => `none of ${all}`,
  doubtedSome: (share: string, doubted: number, all: number) => `${share} (${doubted} of ${all})`,
  check: 'Check due',
  notChecked: 'never checked',
  checkNone: 'no date set',
  overdue: (day: string) => `overdue, ${day}`,
  standsIn: 'Stands in',
  nowhere: 'nowhere yet',
  nextStep: 'Next:',
  notSent: 'does not send it',
  // Set aside
  setAsideLead:
    'Messages that could not be read or were not allowed. The first place to look when a probe seems silent.',
  setAsideNone: 'Nothing has been set aside. Every message that came could be read.',
  setAsideCount: (total: number, kept: number) => `So far: ${total}, newest kept: ${kept}.`,
  whatToDo: 'What to do:',
  sentOn: (topic: string, bytes: number) => `${topic}, ${bytes} bytes`,
  // Yard
  yardLead: 'Name, time zone and unit of the yard.',
  watcherTitle: 'Who watches the watcher',
  heartbeatOn: (minutes: number, last: string) =>
    `A service outside is called every ${minutes} minutes, ${last}.`,
  heartbeatLast: (time: string) => `last answered ${time}`,
  heartbeatNever: 'not answered since the start',
  heartbeatOff:
    'Nobody notices if this machine dies: no heartbeat address is set. Take any service that raises an alarm when calls stop, and put its address into the configuration file:',
  allWellOn: (time: string) => `A text that all is well goes out every day at ${time}.`,
  allWellOff: 'No daily text that all is well. With one, silence means that something is wrong.',
  allWellChange: 'Change it under Duty',
  outageOn: (minutes: number) =>
    `After an outage longer than this people are told what was missed: ${minutes} minutes.`,
  outageOff: 'Nobody is told what was missed after an outage.',
  reachTitle: 'How it is reached',
  reachScreens: 'Screens',
  reachBroker: 'Broker for probes',
  thisMachineOnly: (where: string) => `${where} (from this machine only)`,
  brokerIs: (address: string, whose: string, how: string) => `${address}, ${whose}, ${how}`,
  ownBroker: 'built in',
  otherBroker: 'of your own',
  withTls: 'with TLS',
  plain: 'without TLS',
  noHttps:
    'Without HTTPS phones cannot install the app, keep it offline or be told by web push, and passwords travel readable. Give the service a certificate (http.tls) or put a proxy with one before it.',
  keepDays: 'Readings are kept',
  forEver: 'for ever',
  days: (days: number) => `${days} days`,
  configHint: 'These are set in the configuration file and hold after a restart; see {command}.',
} as const;

export const channelTitles: Readonly<Record<Channel, string>> = {
  'sms-http': 'Texts by a gateway',
  'sms-modem': 'Texts by a modem',
  email: 'E-mail',
  'web-push': 'Web push to browsers',
  webhook: 'Web addresses that are called',
};

/** Not a word: what is typed to see every field of the configuration. */
export const helpCommand = 'npm start -- --help';

/** Roles in words, least first. */
export const roleChoices = [
  ['viewer', 'may look'],
  ['keeper', 'may look and act'],
  ['owner', 'may do everything'],
] as const satisfies readonly (readonly [Role, string])[];

/** The least that makes each work; every field is explained by `npm start -- --help`. */
export const channelExamples: Readonly<Record<Channel, string>> = {
  'sms-http': 'sms:\n  url: https://gateway.example/send\n  headers:\n    authorization: Bearer YOUR-KEY',
  'sms-modem': 'modem:\n  port: /dev/ttyUSB0',
  email:
    'email:\n  host: mail.example.org\n  from: yard@example.org\n  user: yard\n  password: YOUR-PASSWORD',
  'web-push': 'webPush:\n  contact: mailto:you@example.org',
  webhook: 'webhook:\n  secrets: [A-LONG-RANDOM-TEXT]',
};

export const heartbeatExample = 'watch:\n  heartbeatUrl: https://watcher.example/your-own-address';

/** What to do next where no alarm says it. */
export const nextWords: Readonly<Record<Exclude<ProbeHealthView['next'], 'alarm'>, string>> = {
  'wait-first-message': 'It has sent nothing yet. Put its password in and wait for its first message.',
  place: 'Say which of its sensors stands where.',
  calibrate: 'Check its sensors in ice water when it is out of the pile next.',
  revoked: 'It is shut out. Make it a new password if it should send again.',
  nothing: 'Nothing. All is well with it.',
};
