/** Words of the page about oneself, in one place so that they can be translated. */
export const text = {
  title: 'Me',
  signedInAs: 'Signed in as {name} ({login}).',
  phoneTitle: 'Tell me on this phone',
  phoneLead:
    'This browser can show alarms as notifications, also while the yard is not open. You can end it here at any time.',
  phoneButton: 'Tell me on this phone',
  phoneOn: 'This phone is told.',
  phoneFrom: 'From',
  phoneToldFrom: (priority: string) => `From "${priority}".`,
  phoneEnd: 'Tell it no more',
  phoneTest: 'Send it a test',
  phoneOthers: 'Other browsers of yours that are told',
  phoneGone: 'ended by itself',
  phoneNotSetUp: 'Web push is not set up in this yard: the owner finds under Manage, Gateways how to.',
  phoneNeedsHttps:
    'Browsers allow this over HTTPS and on the machine itself only. The owner finds under Manage, Yard what to do.',
  phoneHomeScreen:
    'On an iPhone or iPad put the yard on the home screen first (Share, Add to Home Screen) and open it from there.',
  phoneCannot: 'This browser cannot be told by web push.',
  phoneDenied:
    'Notifications of this page are blocked in this browser. Allow them in its settings for this page, then press again.',
  phoneFailed: (why: string) => `The browser could not subscribe: ${why}`,
  textTitle: 'Texts to my phone',
  textLead: 'A test text goes to the number the owner has written down for you.',
  textButton: 'Send me a test text',
  textSent: 'It is on its way. When nothing comes within some minutes, tell the owner.',
  passwordTitle: 'Change my password',
  passwordNow: 'Password now',
  passwordNew: 'New password',
  passwordButton: 'Change it',
  passwordDone: 'Changed. Every other browser of yours is signed out.',
  remove: 'Tell it no more',
} as const;
