/** The winter plan: stages, tasks, lengths, notes and refusals. The animal's name is set before a task by the face. */
export const winterPlanWords = {
  'winter.stage.feeding-up': 'Good weeds, sun or a UV lamp, and water: the reserves for the winter are made now.',
  'winter.stage.winding-down': 'Shorter lamp days and smaller meals tell the body that winter is coming.',
  'winter.stage.fast': 'No food, but water, baths and warmth, until the gut is empty.',
  'winter.stage.asleep': 'Cold, dark and steady, with a look every week.',
  'winter.stage.cooling': 'Five cold, dark nights, with a look every day.',
  'winter.stage.waking': 'Warmed over about 12 hours, then bath, light and food.',
  'winter.stage.recovering': 'Drinking, passing urine and eating again, as every day shows.',
  'winter.stage.back-to-full': 'Until the weight is back where it was at the start of the sleep.',
  'winter.stage.awake': 'Light, heat and food all winter, with a weigh-in every week.',

  'winter.length.wish_one': 'One night, as you wished. Ceiling {{ceiling}}.',
  'winter.length.wish_other': '{{count}} nights, as you wished. Ceiling {{ceiling}}.',
  'winter.length.suggested_one': 'One night. Ceiling {{ceiling}}.',
  'winter.length.suggested_other': '{{count}} nights, as suggested for this animal. Ceiling {{ceiling}}.',
  'winter.length.ceiling_one': 'One night: the ceiling for this animal.',
  'winter.length.ceiling_other': '{{count}} nights: the ceiling for this animal.',
  'winter.length.mass-loss_one': 'One night: longer, and the loss of weight might pass 8 %.',
  'winter.length.mass-loss_other':
    '{{count}} nights: longer, and the loss of weight might pass 8 %. Ceiling {{ceiling}}.',
  'winter.length.season_one': 'One night: what is left of the cold season.',
  'winter.length.season_other': '{{count}} nights: what is left of the cold season. Ceiling {{ceiling}}.',
  'winter.length.first-cooling_one': 'One night.',
  'winter.length.first-cooling_other': '{{count}} nights: a first cooling. It is better than none.',

  'winter.note.provisional': 'This plan holds only if what is still missing turns out well:',
  'winter.note.ceiling_one': 'You asked for more; one night is the most for this animal.',
  'winter.note.ceiling_other': 'You asked for more; {{count}} nights are the most for this animal.',
  'winter.note.noMassForecast':
    'No forecast of the weight went into this length. Weigh the animal, and the plan will check it.',
  'winter.note.lateStart':
    'The usual day to go down would be {{usual}}. There is no time to prepare for it: {{now}} is the first day that can be met.',
  'winter.note.shortPreparation_one': 'There is only one day for the fast; {{usual}} are usual.',
  'winter.note.shortPreparation_other':
    'Short preparation: {{count}} days without food where {{usual}} are usual, and the lamp falls faster. Keep it warm and watch the droppings closely.',
  'winter.note.alreadyAsleep':
    'It has been asleep since {{day}}. The preparation cannot be checked any more; watch weight and temperature closely.',
  'winter.note.fastTooLong_one': 'One day without food is planned, more than the {{most}} allowed.',
  'winter.note.fastTooLong_other':
    '{{count}} days without food are more than the {{most}} that are wise. Better feed it again and start the fast anew.',
  'winter.note.outOfSeason':
    'This sleep lies outside the cold season here. A place outdoors will be too warm; a refrigerator may do.',
  'winter.note.gutInTime':
    'Gut expected clear on {{day}}, day {{fastDay}} of the fast; for a slow animal by {{latest}}. In time.',
  'winter.note.gutPerhapsLate':
    'Gut expected clear on {{day}}, day {{fastDay}} of the fast, but a slow animal needs longer than the fast planned. Look for droppings to the end.',
  'winter.note.gutLate':
    'At the warmth planned the gut clears only on {{day}}, too late. Give more lamp hours or warmer nights, or go down later.',
  'winter.note.gutNever':
    'At the warmth planned the gut will not clear at all: it is too cold to digest. Warm it by day and bathe it; do not just wait.',
  'winter.note.awakeHalfCold':
    'Awake means warm. A cool room without sleep is the worst of both: too cold to eat, too warm to save strength.',
  'winter.note.neverCool': 'This kind never sleeps through a winter. Keep it warm night and day.',
  'winter.caution.lamps':
    'Heat lamps and leads start fires. Guard the lamp, keep bedding away, keep damp from plugs, and have a qualified electrician follow the local rules.',

  'winter.choice.advice.uk-joint-2016':
    'Length after the joint advice of the UK veterinary bodies (2016): three months at most. Others allow more.',
  'winter.choice.advice.german-chamber':
    'Length after the German veterinary chamber: three to five months for grown animals. UK veterinary bodies say three months at most.',
  'winter.choice.advice.common-practice':
    'Length after common practice among keepers. UK veterinary bodies say three months at most, and none in the first winters.',
  'winter.refuse.species':
    'No sleep for “{{species}}”: this kind is never hibernated, or is not known for certain. Identify it first.',
  'winter.refuse.verdict': 'The verdict is to stay awake this winter.',
  'winter.refuse.length': 'The advice your group follows gives no sleep for an animal of this age.',
  'winter.refuse.mass':
    'The forecast of its weight leaves no night: it would lose too much. Keep it awake, and see why it is so light or dry.',
  'winter.refuse.noSeason':
    'So near the equator no cold season follows from the light. Give a sleeping day or the monthly normals.',
  'winter.refuse.past': 'A sleep from {{day}} is over already.',
  'winter.refuse.tooSoon':
    'There are {{available}} days left to that day; the preparation takes {{needed}}. A fast of less than {{least}} days is never planned.',
  'winter.refuse.fastTooShort': 'The fast must last {{least}} days at least: not before {{day}}.',
  'winter.option.later': 'Go down on {{day}} instead, with the full preparation.',
  'winter.option.shorter_one': 'Take a short preparation of one day.',
  'winter.option.shorter_other': 'Keep the day and take a short preparation of {{count}} days.',
  'winter.option.nextWinter': 'Wait for the next winter: {{day}}.',
  'winter.option.awake': 'Keep it awake this winter.',

  'winter.moved.title': 'What moves with it',
  'winter.moved.later_one': 'one day later, {{to}} instead of {{from}}',
  'winter.moved.later_other': '{{count}} days later, {{to}} instead of {{from}}',
  'winter.moved.earlier_one': 'one day earlier, {{to}} instead of {{from}}',
  'winter.moved.earlier_other': '{{count}} days earlier, {{to}} instead of {{from}}',
  'winter.moved.tasks_one': 'One task moves',
  'winter.moved.tasks_other': '{{count}} tasks move',
  'winter.move.nothing': 'Nothing moves.',
  'winter.move.sleep-day_one':
    'The sleeping day moved by one day to {{sleepDay}}, and all that follows with it; waking on {{wakeDay}}.',
  'winter.move.sleep-day_other':
    'The sleeping day moved by {{count}} days to {{sleepDay}}, and all that follows with it; waking on {{wakeDay}}.',
  'winter.move.wake-day_one': 'The waking moved by one day to {{wakeDay}}, and all that follows with it.',
  'winter.move.wake-day_other': 'The waking moved by {{count}} days to {{wakeDay}}, and all that follows with it.',
  'winter.move.gut-not-clear_one':
    'The gut is not clear yet, so the sleep waits one day, to {{sleepDay}}. Keep the lamp and the warmth on till then.',
  'winter.move.gut-not-clear_other':
    'The gut is not clear yet, so the sleep waits {{count}} days, to {{sleepDay}}. Keep the lamp and the warmth on till then.',
  'winter.move.box-too-warm_one': 'The box is still too warm, so the sleep waits one day, to {{sleepDay}}.',
  'winter.move.box-too-warm_other': 'The box is still too warm, so the sleep waits {{count}} days, to {{sleepDay}}.',
  'winter.move.went-down_one': 'It went down one day off the plan, on {{sleepDay}}; waking on {{wakeDay}}.',
  'winter.move.went-down_other': 'It went down {{count}} days off the plan, on {{sleepDay}}; waking on {{wakeDay}}.',
  'winter.move.woke_one': 'It woke one day off the plan, on {{wakeDay}}. The first days’ list starts there.',
  'winter.move.woke_other': 'It woke {{count}} days off the plan, on {{wakeDay}}. The first days’ list starts there.',
} as const;
