/** Words about web push, in one place so that they can be translated. */
export const pushWords = {
  fetching: 'Fetching...',
  lead: 'This browser can show alarms as they come, also while no page is open. It needs a link to the internet; texts by phone do not.',
  notSetUp: 'Web push is not set up here: Gateways shows how.',
  notPossible:
    'This browser cannot do it here: it needs the yard at an https address, and on an iPhone the yard on the home screen.',
  from: 'Tell me from',
  start: 'Tell this browser',
  thisOne: 'This browser',
  browserSince: '{browser}, since {time}, {from}',
  gone: 'has ended; start it again in that browser',
  end: 'End it',
  refused: 'The browser did not allow notices: allow them in its settings for this page, then try again.',
} as const;
