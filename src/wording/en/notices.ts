/** English wording of notices. Keys begin with the room they belong to; {{name}} stands for a value. */
export const noticesWords = {
  'notices.title.act-now': 'Act now: {{animal}}, {{place}}',
  'notices.title.escalation': 'Nobody has answered. Act now: {{animal}}, {{place}}',
  'notices.title.over': 'Over: {{animal}}, {{place}}',
  'notices.text.act-now':
    '{{animal}} in {{box}}, {{place}}. {{sentence}} Open “What to do now” for the steps. Say “I am on it” there, so that nobody else has to come.',
  'notices.text.over': '{{animal}} in {{box}}, {{place}}. This is over: {{sentence}} Look at the animal when you can.',
  'notices.digest.title_one': 'Look today: {{count}} thing',
  'notices.digest.title_other': 'Look today: {{count}} things',
  'notices.digest.line': '{{animal}}, {{place}}: {{sentence}}',
  'notices.test.title': 'Test from Stillwinter',
  'notices.test.text': 'This is only a test. A notice would reach you this way.',
  'notices.no-email-server': 'No mail server is set up. Name one in the settings of the server.',
  'notices.no-push-keys': 'This server has no keys for push messages yet.',
  'notices.channel.too-many': 'There are {{most}} ways to reach you already. Remove one first.',
  'notices.no-watch':
    'Nobody watched between {{from}} and {{to}}: Stillwinter was not running. Look at the thermometer’s own memory, and at the animal.',
} as const;
