/** English wording of access. Keys begin with the room they belong to; {{name}} stands for a value. */
export const accessWords = {
  'access.weak':
    'This passphrase would be guessed too soon. Take several words that do not belong together, and none of your own names.',
  'access.alreadySetUp': 'The first person is set up already. Ask the tutor of the group for an invitation.',
  'access.invitationGone': 'This invitation has been used or has run out. Ask for another.',
  'access.nameTaken': 'Somebody signs in with this name already. Choose another.',
  'access.lastTutor': 'This is the only tutor of the group. Make another person tutor first.',
  'access.nobody': 'Nobody signs in with the name “{{name}}”.',
  'access.shareUntil': 'A link can hold from now until three months from now.',
  'access.calendarGone': 'This calendar address was taken back or never existed. Make a new one under Papers.',
  'access.shareGone': 'This link has run out or was taken back. Ask the keeper for another.',
} as const;
