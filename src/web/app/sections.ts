/** The sections of the screens, in the order in which they stand at the top: address and key of the words. */
export const sections = [
  ['/', 'web.nav.round'],
  ['/animals', 'web.nav.animals'],
  ['/places', 'web.nav.places'],
  ['/plans', 'web.nav.plans'],
  ['/readings', 'web.nav.readings'],
  ['/group', 'web.nav.group'],
  ['/papers', 'web.nav.papers'],
  ['/settings', 'web.nav.settings'],
] as const;
