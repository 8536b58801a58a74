import type { Language } from '../../../shared/messages/words/languages.ts';

/** Words of the page behind the link of a text, one object for each language texts are written in. */
export interface AnswerPageWords {
  /** How dates are written. */
  readonly locale: string;
  readonly first: string;
  readonly caution: string;
  readonly button: string;
  readonly open: string;
  readonly openSince: string;
  readonly superseded: string;
  readonly hidden: string;
  readonly backToNormal: string;
  readonly stillOn: string;
  readonly seenBy: string;
  readonly somebody: string;
  readonly probe: string;
  readonly unknown: { readonly title: string; readonly why: string };
  readonly expired: { readonly title: string; readonly why: string };
  readonly nothingDone: string;
}

const english: AnswerPageWords = {
  locale: 'en-GB',
  first: 'First:',
  caution: 'Caution:',
  button: 'I have seen this and will deal with it',
  open: 'On, not acknowledged yet.',
  openSince: 'On since {time}, not acknowledged yet.',
  superseded:
    'This link belongs to an earlier time; the alarm has come again since. Use the link in the newest text.',
  hidden: 'Hidden just now: {reason}. Nothing to acknowledge.',
  backToNormal: 'It is back to normal.',
  stillOn: 'It is still on.',
  seenBy: 'Acknowledged by {name} at {time}.',
  somebody: 'somebody',
  probe: 'probe {label}',
  unknown: { title: 'This link is not known', why: 'It may be mistyped or cut short.' },
  expired: { title: 'This link is too old', why: 'It was good for a limited time.' },
  nothingDone: 'Nothing was acknowledged. Use the link in the newest text, or sign in to the yard.',
};

const german: AnswerPageWords = {
  locale: 'de-DE',
  first: 'Zuerst:',
  caution: 'Vorsicht:',
  button: 'Gesehen, ich kümmere mich darum',
  open: 'Alarm ist an, noch von niemandem gesehen gemeldet.',
  openSince: 'An seit {time}, noch von niemandem gesehen gemeldet.',
  superseded:
    'Dieser Link gehört zu einem früheren Mal; der Alarm kam seitdem wieder. Bitte den Link in der neuesten Nachricht nehmen.',
  hidden: 'Gerade ausgeblendet: {reason}. Nichts zu melden.',
  backToNormal: 'Es ist wieder in Ordnung.',
  stillOn: 'Der Alarm ist noch an.',
  seenBy: 'Gesehen gemeldet von {name}, {time}.',
  somebody: 'jemandem',
  probe: 'Fühler {label}',
  unknown: {
    title: 'Dieser Link ist nicht bekannt',
    why: 'Vielleicht ist er vertippt oder abgeschnitten.',
  },
  expired: { title: 'Dieser Link ist zu alt', why: 'Er galt nur eine gewisse Zeit.' },
  nothingDone:
    'Es wurde nichts gemeldet. Bitte den Link in der neuesten Nachricht nehmen oder sich am Hof anmelden.',
};

export const answerPageWords: Readonly<Record<Language, AnswerPageWords>> = { en: english, de: german };
