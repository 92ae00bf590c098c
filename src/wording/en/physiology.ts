/** English wording of physiology. Keys begin with the room they belong to; {{name}} stands for a value. */
export const physiologyWords = {
  'physiology.gut.clear':
    'Even a slow gut has had enough warmth to pass its last meal. Look for droppings at the bath all the same.',
  'physiology.gut.probably-clear':
    'Most animals would be empty by now, a slow one not yet. Keep it warm and bathed a little longer, and look for the last droppings.',
  'physiology.gut.clearing':
    'About {{passed}} % of the way: at the warmth of the last three days ({{recent}}) the gut should be empty in {{days}} days, or {{late}} for a slow animal.',
  'physiology.gut.too-cold':
    'Too cold to digest, and food is still in the gut: only about {{passed}} % has passed, and at {{recent}} almost nothing moves. Do not put it down, and do not just wait. Bring it back into warmth by day, bathe it daily, and start the wind-down again when it has cleared. If it looks unwell, see a vet who treats reptiles.',
  'physiology.gut.unknown':
    'No temperatures are known for these days, so the gut cannot be judged. Write down lamp hours and the night temperature.',

  'physiology.mass.expected': '{{weighed}}: as expected (between {{low}} and {{high}}).',
  'physiology.mass.under':
    '{{weighed}}: lighter than expected (between {{low}} and {{high}}). Look at it today: is the bedding dry, is the box warm, is it awake? Weigh again in a few days.',
  'physiology.mass.drop':
    '{{weighed}} is {{step}} ({{share}}) less than expected. Sleep alone does not do that. Look for wet bedding: if it has passed urine, the sleep is over. Check that it is the right animal and the same scale, and weigh again now. Until then the lower figure counts.',
  'physiology.mass.drop-or-slip':
    '{{weighed}} is {{step}} ({{share}}) less than expected. Was it {{perhaps}}? If not, look for wet bedding: if it has passed urine, the sleep is over. Check that it is the right animal, and weigh again now. Until then the lower figure counts.',
  'physiology.mass.rise':
    '{{weighed}} is {{step}} ({{share}}) more than expected, more than damp bedding adds. Has it drunk, is it the right animal, the same scale? Weigh again now. Until then the course so far counts.',
  'physiology.mass.rise-or-slip':
    '{{weighed}} is {{step}} ({{share}}) more than expected. Was it {{perhaps}}? Check that it is the right animal, and weigh again now. Until then the course so far counts.',
  'physiology.mass.impossible':
    'No tortoise changes by {{share}} between two weigh-ins. Is it the right animal and the right figure? Weigh again now.',
  'physiology.mass.wrong-unit': 'This figure fits if it was meant in {{unit}}: {{perhaps}}. Is that right?',
  'physiology.mass.step-confirmed':
    'The second weighing agrees: there was a step of {{step}} ({{share}}). If it was downwards and nothing else explains it, treat it as urine: the sleep is over, warm it and bathe it.',
  'physiology.mass.misreading': '{{weighed}}: as expected again. The odd figure before was most likely a misreading.',
  'physiology.mass.small-gain':
    '{{weighed}}: a little heavier than last time. That is normal after damp days: shell, skin and bedding hold a little water.',
  'physiology.mass.urine':
    'Urine passed, and {{weighed}} now. End the sleep: warm it slowly and bathe it, for it has lost the water it lives on.',
  'physiology.mass.drank': '{{weighed}} after drinking. The count goes on from here.',
  'physiology.mass.other-scale': '{{weighed}} on another scale. The count goes on from here.',
} as const;
