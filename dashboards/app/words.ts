/** Words of the app's frame, of signing in and of the list of piles, in one place so that they can be translated. */
export const appWords = {
  // The frame
  places: 'Places',
  piles: 'Piles',
  wall: 'Wall',
  records: 'Records',
  plan: 'Plan',
  manage: 'Manage',
  signOut: 'Sign out',
  fetchingLimits: 'Fetching the limits...',
  fetchingRecords: 'Fetching the records...',
  fetchingPlanner: 'Fetching the planner...',
  sending: 'Sending...',
  // The list of piles
  pilesWorstFirst: 'Piles, worst first',
  startFirst: 'Start the first one.',
  noProbes: 'No probe stands in any pile yet: nobody is watching.',
  goOn: 'Go on with the first steps',
  // Signing in
  signInName: 'Sign-in name',
  password: 'Password',
  noOwner: 'This yard has no owner yet. Open the set-up link that was printed where the service was started.',
  forgotten: "Forgotten it? The yard's owner can give you a link to set a new password.",
  oneMoment: 'One moment...',
  linkTrouble: 'This link does not work',
  welcome: (name: string) => `Welcome, ${name}`,
  openYard: 'Open the yard',
  setPassword: 'Set a password',
  setPasswordFor: 'For {name} (sign-in name {login}).',
  setAndSignIn: 'Set password and sign in',
  newPassword: 'New password',
  passwordHint: (shortest: number) => `At least ${shortest} characters; a few words in a row are good.`,
  // The password asked again
  confirmTitle: 'Is it you?',
  confirmWhy:
    'Where alarms go, and who may change things, is changed only by somebody who has just shown their password.',
  confirmLabel: (name: string) => `Password of ${name}`,
  confirmButton: 'It is me',
  confirmNot: 'Leave it as it was',
} as const;
