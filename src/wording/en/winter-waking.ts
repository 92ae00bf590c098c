/** Waking, the first days, the end of the winter; changed limits. */
export const winterWakingWords = {
  'winter.waking.bring': 'Bring the box into a heated room and leave the animal in it.',
  'winter.waking.lookIn': 'Look in once, without lifting it.',
  'winter.waking.check': 'Lift it out: look at eyes, nose, mouth, skin and the underside, and weigh it.',
  'winter.waking.bath':
    'Bathe 15 to 20 minutes in tepid water, about 30 °C, to just below the chin. Drinking comes first.',
  'winter.waking.lamp': 'Put it under the lamp: a warm end of 28 to 30 °C, 12 hours a day.',
  'winter.waking.food': 'Offer food at once. Not eating today is normal.',
  'winter.waking.wait.food': 'Day {{days}} awake, not eaten yet. Normal in the first days: bathe daily and offer food.',
  'winter.waking.wait.urine': 'Day {{days}} awake, no urine yet. Bathe daily; it must drink.',
  'winter.waking.wait.both':
    'Day {{days}} awake, neither eaten nor passed urine. Normal in the first days: bathe daily.',
  'winter.waking.coax.food': 'Day {{days}} awake, not eaten yet. Tempt it with watery food: cucumber, melon, flowers.',
  'winter.waking.coax.urine': 'Day {{days}} awake, no urine yet. Longer baths, twice a day.',
  'winter.waking.coax.both':
    'Day {{days}} awake, neither eaten nor passed urine. Check the lamp, bathe twice a day, tempt it.',
  'winter.waking.vet.food':
    'Day {{days}} awake, not eaten: see a vet who treats reptiles today. Seven days is the limit.',
  'winter.waking.vet.urine':
    'Day {{days}} awake, no urine: see a vet who treats reptiles today. Seven days is the limit.',
  'winter.waking.vet.both':
    'Day {{days}} awake, neither eaten nor passed urine: see a vet who treats reptiles today. Seven days is the limit.',
  'winter.waking.past-every-limit.food':
    'Day {{days}} awake, not eaten: past the longest limit anyone gives. To the vet now.',
  'winter.waking.past-every-limit.urine':
    'Day {{days}} awake, no urine: past the longest limit anyone gives. To the vet now.',
  'winter.waking.past-every-limit.both':
    'Day {{days}} awake, neither eaten nor passed urine: past the longest limit anyone gives. To the vet now.',
  'winter.waking.feeding': 'Eating and passing urine. Weigh it to see the weight come back.',
  'winter.waking.regaining': 'Eating and passing urine; weight at {{share}} of the start.',
  'winter.waking.over': 'Eating, and the weight is back at the start. This winter is over.',

  'winter.summary.slept_one': 'Slept one night of {{planned}} planned.',
  'winter.summary.slept_other': 'Slept {{count}} nights of {{planned}} planned.',
  'winter.summary.loss': 'Lost {{grams}} ({{share}}), {{monthly}} a month.',
  'winter.summary.lossUnknown': 'Not weighed at both ends: weigh at the start and at the waking next time.',
  'winter.summary.temperature': 'Box {{coldest}} to {{warmest}}, in the band {{steadiness}} of the hours read.',
  'winter.summary.temperatureUnknown': 'No temperatures were read: put a probe or a max-min thermometer into the box.',
  'winter.lesson.shorter_one': 'It lost much. Next winter plan one night at most.',
  'winter.lesson.shorter_other': 'It lost much. Next winter plan {{count}} nights at most.',
  'winter.lesson.damper': 'It lost water fast: damper bedding, fewer holes, and a full bath before.',
  'winter.lesson.colder': 'The box was often too warm: a colder place, a later start or the refrigerator.',
  'winter.lesson.insulate': 'The box came under 3 °C: thicker walls, more water bottles or a better place.',
  'winter.lesson.awakeNext': 'It passed urine or came to the 10 % limit: have a vet look before it sleeps again.',
  'winter.lesson.slowStart':
    'It ate late after waking: warmer and brighter from the first hour, and a vet’s look in summer.',
  'winter.lesson.same': 'All as expected: the next winter can start from this one.',

  'winter.settings.tighter': 'Tighter than usual.',
  'winter.settings.looser': 'Looser than the usual limit: allowed by the tutor and recorded.',
  'winter.settings.same': 'The usual limit.',
  'winter.settings.needsTutor': 'Looser than the usual limit. Only the tutor may do this; it is recorded.',
  'winter.settings.fixed': 'This rule cannot be loosened or changed by anybody.',
  'winter.settings.notANumber': 'Give a limit as a number in {{unit}}, and a time that is not below nought.',
  'winter.settings.changed': 'Rule “{{rule}}” set to {{limit}} {{unit}} for {{duration}} by the {{role}}.',
} as const;
