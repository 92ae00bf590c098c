/** Words of the screens about an animal that died or left. */
export const webLeavingWords = {
  'web.shared.none': 'This link shows nothing',
  'web.shared.noneDo':
    'Look whether the whole address was copied. A link for a vet holds until a day, and can be taken back: ask the keeper of the animal for another.',
  'web.left.open': 'It died or left',
  'web.left.openLeft': 'When and how it left',
  'web.left.lead':
    'Its page and its record stay, from year to year. It is no longer on the round, in the lists or in plans. If it is in a box, that stay ends on this day, and the watch over it too.',
  'web.left.how': 'What happened',
  'web.left.how.died': 'It died',
  'web.left.how.given-away': 'It went to another keeper',
  'web.left.how.sold': 'It was sold',
  'web.left.how.returned': 'It went back to its owner',
  'web.left.how.lost': 'It was lost',
  'web.left.how.other': 'It left in another way',
  'web.left.on': 'On',
  'web.left.note': 'A note, if you wish',
  'web.left.save': 'Write this down',
  'web.left.told.died': '{{name}} died on {{day}}.',
  'web.left.told.given-away': '{{name}} went to another keeper on {{day}}.',
  'web.left.told.sold': '{{name}} was sold on {{day}}.',
  'web.left.told.returned': '{{name}} went back to its owner on {{day}}.',
  'web.left.told.lost': '{{name}} was lost on {{day}}.',
  'web.left.told.other': '{{name}} left on {{day}}.',
  'web.left.law':
    'Where a tortoise is protected, the law may ask that an authority hears of this, or that its paper goes with it or is given back. Your local authority can tell you.',
  'web.left.lawPaper':
    'Its paper has the reference {{paper}}. The law may ask that an authority hears of this, or that the paper goes with the animal or is given back. Your local authority can tell you.',
  'web.left.weights': 'Weight',
  'web.left.lastMass': 'Last weighed on {{day}}: {{mass}}.',
  'web.left.takeBack': 'Take this back',
  'web.left.takeBackAsk':
    'Take back that {{name}} died or left? It is in the lists again, and so is a stay in a box that this ended.',
  'web.left.show_one': 'Show {{count}} that died or left',
  'web.left.show_other': 'Show {{count}} that died or left',
  'web.left.hide': 'Hide those that died or left',
} as const;
