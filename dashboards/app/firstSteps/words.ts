import type { MethodQuestion } from '../../../shared/yard/chooseMethod.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import type { StepKey } from './steps.ts';

/** Words of the walk through a new yard, in one place so that they can be translated. */
export const stepTitles: Readonly<Record<StepKey, string>> = {
  yard: 'Yard',
  people: 'People',
  pile: 'First pile',
  probe: 'Probe',
  channels: 'Sensors',
  ice: 'Ice check',
  text: 'Test text',
  wall: 'Wall screen',
};

export const text = {
  step: (step: number, steps: number) => `Step ${step} of ${steps}`,
  done: 'done',
  toDo: 'to do',
  next: 'Next',
  nextStep: (title: string) => `Next: ${title}`,
  later: 'Leave this for later',
  finish: 'To the yard',
  leave: 'Leave the walk',
  leaveHint: 'Everything so far is kept. Go on any time under Manage, First steps.',
  goOnLink: 'Go on with the first steps',
  yourYard: 'Your yard',
  yourYardLead: 'A yard is one site: its piles, its probes, its people.',
  you: 'You',
  youLead: 'You will be the owner: the one who may change everything.',
  back: 'Back',
  startYard: 'Start this yard',
  yardName: 'Name of the yard',
  zone: 'Time zone',
  zoneHint: (time: string) => `All times are shown in it. There it is now ${time}.`,
  zoneWrong: 'That is no time zone name. Allowed: a name such as Europe/London.',
  unit: 'Temperatures in',
  celsius: 'Celsius',
  fahrenheit: 'Fahrenheit',
  altitude: 'Height above sea, metres',
  altitudeHint: 'Used when probes are checked in boiling water. Leave 0 if you do not know.',
  yourName: 'Your name',
  login: 'Sign-in name',
  loginHint: 'Short, without spaces: you type it on your phone.',
  password: 'Password',
  peopleLead: 'Who is told when a pile needs somebody, and by what?',
  yourPhone: 'Your mobile number, for texts',
  phoneHint: 'With + and country code: +441632960123',
  savePhone: 'Save the number',
  saved: 'Saved.',
  addAnother: 'Somebody else too',
  pileLead: 'A few questions, so that it starts with limits that fit.',
  yes: 'Yes',
  no: 'No',
  again: 'Ask me again',
  pickMyself: 'I know what it is: pick it from a list',
  itIs: 'So it is run as:',
  itIsRunAs: 'So it is run as: {method}',
  pileSince: (place: string, method: string, day: string) => `, ${place}: ${method}, ${day}`,
  lacksChannels:
    'This is the nearest way there is. Without open channels air reaches little of a pile that is never turned: watch it for going cool and sour.',
  means: 'What that means',
  start: 'Start this pile',
  name: 'Name',
  nameHint: 'Short: it goes into texts.',
  place: 'Where it stands',
  placeHint: 'Bay 3, by the east fence...',
  days: 'Built how many days ago',
  daysHint: '0 if you built it today.',
  pilesNow: 'Piles of this yard',
  anotherPile: 'Start another pile',
  probeLead:
    'A probe is a small box with sensors on stems that sends what it measures. It gets a name and a password, and then sends.',
  anotherProbe: 'Add another probe',
  channelsLead: 'Which sensor is where? Each has to be told apart, and its place in the pile written down.',
  needProbe: 'No probe has sent anything yet: that comes first.',
  needPile: 'There is no pile yet: that comes first.',
  toStep: 'Go to that step',
  iceLead:
    'A sensor that is two degrees out judges every pile wrongly. Ice and water tell within minutes. Worth doing for each sensor, before it goes into a pile.',
  textLead: 'An alarm is worth nothing if its text does not arrive.',
  textTo: 'A test goes to {phone}.',
  textSend: 'Send me a test',
  textNoWay: 'There is nobody it could go to: you have no phone number here yet.',
  textWaiting: 'It is on its way...',
  textSent: 'The gateway took it. Is it on your phone?',
  textFailed: 'It did not go out:',
  textNoGateway: 'No way to send texts is set up yet.',
  textHow:
    'Texts leave by a gateway of a phone company or by a modem with a SIM card, e-mail by a mail server. Each is a few lines of the configuration file, then a restart. For a gateway that takes JSON over HTTP:',
  textGateways: 'All ways, how each stands, and a test of each',
  wallLead:
    'A screen in the shed shows the whole yard at a glance. It needs a link of its own: it may look and change nothing, and you can take it back.',
  wallLabel: 'Which screen',
  wallLabelHint: 'Shed, kitchen...',
  wallMake: 'Make the link',
  wallOpen: 'Open this on that screen; it is shown only now:',
  wallQr: 'QR code of the wall link',
  allDone: 'The yard is set up.',
  allDoneLead: 'Readings come in, piles are judged, and texts go out.',
  leftOver: 'Left for later',
} as const;

/** What a method means for the limits a pile starts with. */
export const limitLineWords = {
  ceiling: (ceiling: string, fire: string) =>
    `Above ${ceiling} in its core you are told; from ${fire} on it is a matter for the fire service.`,
  neverHeated: (temperature: string, days: number) =>
    `If it has not passed ${temperature} after ${days} days, you are told.`,
  needNotHeat: 'It need not get hot.',
  tooLong: (days: number) => `More than ${days} hot days after its heat record is complete are too many.`,
  range: (from: string, to: string) => `Once it is past its heat, or has worms: between ${from} and ${to}.`,
  water: (dry: string, wet: string) => `Drier than ${dry} water is too dry, wetter than ${wet} too wet.`,
  later: 'Every number can be changed later, for each pile.',
} as const;

export const questionWords: Readonly<Record<MethodQuestion, string>> = {
  worms: 'Do worms live in it, or will they from the start?',
  'only-leaves': 'Is it nothing but leaves, left to rot slowly?',
  'been-hot': 'Has it had its hot time already, and now only ripens?',
  turned: 'Do you turn it?',
  'in-a-box': 'Is it in a bin or a box?',
  fan: 'Does a fan blow or draw air through it?',
  channels: 'Is it a cage, or a heap, with open air channels or pipes through it?',
};

export const methodLead: Readonly<Record<PileMethod, string>> = {
  'static-cage': 'a cage that is never turned; air comes through channels',
  'hot-bin': 'a bin that is turned and works hot',
  'turned-windrow': 'a long heap that is turned',
  'aerated-static-pile': 'a heap that is never turned; a fan moves the air',
  'worm-bed': 'a bed that worms work',
  'curing-heap': 'a heap that has been hot and ripens',
  'leaf-heap': 'leaves that rot slowly',
};
