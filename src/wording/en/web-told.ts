/** Words of how a person is told of notices. */
export const webToldWords = {
  'web.told.title': 'How I am told',
  'web.told.lead':
    'Notices always stand in the round. Here you say how else they reach you, so that “act now” finds you when you are not looking.',
  'web.told.nobody': 'Ways of being reached belong to a person, and no person has been set up yet.',
  'web.told.toGroup': 'Set up the first person',
  'web.told.none':
    'No way yet: notices stand in the round only, and nobody is woken. Add one, then press “Send a test”.',
  'web.told.kind': 'By',
  'web.told.kind.email': 'e-mail',
  'web.told.kind.push': 'message to this device',
  'web.told.kind.webhook': 'call of an address',
  'web.told.device': 'this device',
  'web.told.deviceOf': 'browser on {{system}}',
  'web.told.add': 'Add a way',
  'web.told.added': 'Added. Send a test to see that it arrives.',
  'web.told.address': 'E-mail address',
  'web.told.url': 'Address to call (webhook)',
  'web.told.urlHelp':
    'Called with a POST of the notice as JSON. Each call is signed, so that the other side can tell it is from here.',
  'web.told.secret':
    'This is the secret the calls are signed with. It is shown this once: copy it to the other side now.',
  'web.told.pushHelp': 'Your browser will ask whether messages from this page may be shown. Say yes there.',
  'web.told.push.not-https':
    'This cannot work here. Browsers let a page send messages only over https, and this page came over plain http. The manual says how to serve Stillwinter over https; until then use e-mail.',
  'web.told.push.no-support':
    'This browser cannot receive messages. On an iPhone or iPad add Stillwinter to the home screen first and open it from there.',
  'web.told.push.no-key': 'This server has no push key yet. The manual says how to set one up; until then use e-mail.',
  'web.told.push.refused':
    'The browser has been told not to show messages from this page. Allow them in the browser’s settings for this page, then try again.',
  'web.told.noMail':
    'No mail server is set up for Stillwinter, so e-mail cannot be sent yet. The manual says how to set one up. You can add the address now all the same.',
  'web.told.test': 'Send a test',
  'web.told.tested': 'The test is on its way. If it does not come, the reason will stand here.',
  'web.told.failed': 'The last message did not get through, {{at}}: {{why}}',
  'web.told.remove': 'Remove',
  'web.told.removeAsk': 'You will no longer be reached this way. Remove it?',
  'web.told.when': 'When I hear of it',
  'web.told.whenLead':
    '“Act now” comes at once, at any hour. “Look today” comes together at the times you choose. “For the record” only stands in the book.',
  'web.told.quiet': 'Hours of quiet',
  'web.told.quietHelp': 'Only “act now” is sent then.',
  'web.told.quiet.yes': 'yes',
  'web.told.quiet.no': 'no',
  'web.told.from': 'Quiet from',
  'web.told.to': 'Quiet until',
  'web.told.clock': 'Write a time of day, such as 22:00.',
  'web.told.digests': 'Times for “look today”',
  'web.told.digestsHelp': 'Times of day, parted by commas: 08:00, 17:00.',
  'web.told.clocks': 'Write one to {{most}} times of day, such as 08:00, 17:00.',
} as const;
