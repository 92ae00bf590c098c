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
} as const;
