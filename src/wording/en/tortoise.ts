/** English wording of tortoise. Keys begin with the room they belong to; {{name}} stands for a value. */
const cautions = {
  'tortoise.caution.vet':
    'This is not veterinary advice. If you are in doubt about an animal, do not put it down: ask a vet who treats reptiles.',
  'tortoise.caution.law':
    'Many tortoises are protected species. Check which papers the law where you live asks for, and keep their reference with the animal.',
  'tortoise.caution.hands': 'Wash your hands after every handling: tortoises can carry Salmonella.',
} as const;

const sizes = {
  'tortoise.size.noMass': 'The mass is {{mass}}. The scale was not read: weigh the animal and enter grams.',
  'tortoise.size.noLength':
    'The length is {{length}}. Measure the straight carapace length (not over the curve) and enter millimetres.',
  'tortoise.size.inches':
    'The length {{number}} looks like inches. Enter millimetres: {{number}} in would be {{length}} mm. Check it against the animal.',
  'tortoise.size.centimetres':
    'The length {{number}} looks like centimetres. Enter millimetres: {{number}} cm would be {{length}} mm. Check it against the animal.',
  'tortoise.size.kilograms':
    'The mass {{number}} looks like kilograms. Enter grams: {{number}} kg would be {{mass}} g. Check it against the animal.',
  'tortoise.size.ounces':
    'The mass {{number}} looks like ounces. Enter grams: {{number}} oz would be {{mass}} g. Check it against the animal.',
  'tortoise.size.tooHeavy':
    'No tortoise of {{length}} weighs {{mass}}. One of the two is wrong: measure the straight carapace length again in millimetres and weigh again in grams.',
  'tortoise.size.tooLight':
    'No tortoise of {{length}} weighs as little as {{mass}}. One of the two is wrong: measure the straight carapace length again in millimetres and weigh again in grams.',
  'tortoise.size.lengthRange':
    'No tortoise has a straight carapace length of {{length}}. Measure again and enter millimetres.',
  'tortoise.size.massRange': 'No tortoise weighs {{mass}}. Weigh again and enter grams.',
  'tortoise.size.askLight':
    'It is very light for its length ({{mass}} at {{length}}). Measure and weigh again; if both are right, see a vet now.',
  'tortoise.size.askHeavy':
    'It is very heavy for its length ({{mass}} at {{length}}). Measure and weigh again; if both are right, see a vet about swelling, fluid or eggs.',
} as const;

const condition = {
  'tortoise.condition.normal':
    'It weighs {{share}} of what an average animal of this length weighs: inside the normal range.',
  'tortoise.condition.nearLimit':
    'It weighs {{share}} of the average for its length, too near the limit for one or two weighings to tell. Weigh it on three days within three weeks; their mean decides.',
  'tortoise.condition.light':
    'It weighs {{share}} of the average for its length: too light to hibernate. Keep it awake and see a vet about the cause.',
  'tortoise.condition.seriouslyLight':
    'It weighs {{share}} of the average for its length, Jackson ratio {{ratio}}: seriously light. Keep it awake and see a vet now.',
  'tortoise.condition.heavy':
    'It weighs {{share}} of the average for its length: heavier than nearly all. Let a vet look for swelling, fluid, eggs or a stone before it goes down.',
  'tortoise.condition.smallSeriouslyLight':
    'Jackson ratio {{ratio}}: seriously light. Keep it awake and see a vet now.',
  'tortoise.condition.smallLight':
    'Jackson ratio {{ratio}}: on the light side for a small animal. Weigh it again and ask a vet.',
  'tortoise.condition.smallNormal':
    'Jackson ratio {{ratio}}: not light. It is too small for the size curve, and healthy small animals run above the usual band.',
  'tortoise.condition.ownNormal': 'It weighs {{share}} of what its own earlier weighings lead one to expect.',
  'tortoise.condition.ownNearLimit':
    'It weighs {{share}} of what its own earlier weighings lead one to expect, too near the limit for one weighing to tell. Weigh it on three days.',
  'tortoise.condition.ownLight':
    'It weighs only {{share}} of what its own earlier weighings lead one to expect. Keep it awake and see a vet about the cause.',
  'tortoise.condition.unknown':
    'For this kind there is no published size curve. Give an earlier weighing with its length, or say how its weight went through the summer.',
  'tortoise.condition.bySummer':
    'For this kind there is no published size curve; its weight through the summer was normal, and the examination counts.',
  'tortoise.condition.summerNotNormal':
    'For this kind there is no published size curve, and its weight through the summer was not normal. Ask a vet.',
  'tortoise.condition.noJackson':
    'The Jackson ratio was drawn for Testudo graeca and T. hermanni only, so it gives no verdict here.',
  'tortoise.condition.singleWeighing':
    'A full or empty bladder and gut move the mass by several per cent: two weighings of one animal differ by about 4 %.',
  'tortoise.condition.beyondCurve':
    'The size curve was measured from {{from}} to {{to}} mm; outside that it is carried on and less sure.',
  'tortoise.condition.disagree':
    'The two measures disagree: Jackson ratio {{ratio}} reads as {{jackson}}, the size curve as {{share}} of average. The curve decides, because a fixed ratio calls small animals heavy and large ones light.',
} as const;

const lengths = {
  'tortoise.length.never': 'This kind is kept awake through the winter.',
  'tortoise.length.stayAwake': 'It stays awake this winter, so there is no length.',
  'tortoise.length.cut': 'The advice followed allows up to five months; no plan here goes beyond thirteen weeks.',
  'tortoise.length.taxonCeiling': '{{species}} sleeps at most {{days}} days.',
  'tortoise.length.taxonAdvised': 'For {{species}} one veterinary source advises {{days}} days.',
  'tortoise.length.firstSleep': 'It has never hibernated before: six weeks are enough for a first sleep.',
  'tortoise.length.hesitant': '{{days}} days of cold for a keeper who begins gently: better than none.',
  'tortoise.length.uk-joint-2016.first-winter':
    'Joint UK veterinary advice (2016) lets no animal hibernate in its first winter. Common practice allows one to three weeks; the tutor chooses which advice the group follows.',
  'tortoise.length.uk-joint-2016.second-third-winter':
    'Joint UK veterinary advice (2016): begin between the second and the fourth winter, six weeks at most.',
  'tortoise.length.uk-joint-2016.juvenile': 'Joint UK veterinary advice (2016): a young animal six weeks at most.',
  'tortoise.length.uk-joint-2016.adult': 'Joint UK veterinary advice (2016): three months at most for a healthy adult.',
  'tortoise.length.uk-joint-2016.elderly': 'An elderly animal: four to six weeks (common practice).',
  'tortoise.length.german-chamber.first-winter': 'German veterinary chamber: very young animals six to eight weeks.',
  'tortoise.length.german-chamber.second-third-winter':
    'German veterinary chamber: very young animals six to eight weeks.',
  'tortoise.length.german-chamber.juvenile': 'German veterinary chamber: young animals six to eight weeks.',
  'tortoise.length.german-chamber.adult': 'German veterinary chamber: three to five months for a healthy adult.',
  'tortoise.length.german-chamber.elderly': 'An elderly animal: four to six weeks (common practice).',
  'tortoise.length.common-practice.first-winter': 'First winter, about 5 cm: one to three weeks (common practice).',
  'tortoise.length.common-practice.second-third-winter':
    'Second or third winter: three to six weeks (common practice).',
  'tortoise.length.common-practice.juvenile': 'A young animal: four to six weeks (common practice).',
  'tortoise.length.common-practice.adult':
    'A healthy adult: up to twelve weeks, never more than thirteen (common practice).',
  'tortoise.length.common-practice.elderly': 'An elderly animal: four to six weeks (common practice).',
  'tortoise.advice.uk-joint-2016': 'joint UK veterinary advice (2016)',
  'tortoise.advice.german-chamber': 'German veterinary chamber',
  'tortoise.advice.common-practice': 'common practice',
} as const;

const gates = {
  'tortoise.gate.name.species': 'Species',
  'tortoise.gate.name.age': 'Age',
  'tortoise.gate.name.measurements': 'Measurements',
  'tortoise.gate.name.condition': 'Condition',
  'tortoise.gate.name.appetite': 'Appetite',
  'tortoise.gate.name.summer-weight': 'Weight in summer',
  'tortoise.gate.name.illness': 'Illness',
  'tortoise.gate.name.treatment': 'Treatment',
  'tortoise.gate.name.new-arrival': 'New arrival',
  'tortoise.gate.name.eyes': 'Eyes',
  'tortoise.gate.name.nose': 'Nose',
  'tortoise.gate.name.mouth': 'Mouth',
  'tortoise.gate.name.limbs': 'Limbs',
  'tortoise.gate.name.shell': 'Shell',
  'tortoise.gate.name.tail': 'Tail and vent',
  'tortoise.gate.name.breathing': 'Breathing',
  'tortoise.gate.name.droppings': 'Droppings',
  'tortoise.gate.name.parasites': 'Parasites',
  'tortoise.gate.name.eggs': 'Eggs',
  'tortoise.gate.name.hydration': 'Water',
  'tortoise.gate.name.vet-check': 'Vet’s check',
  'tortoise.gate.name.gut-cleared': 'Gut cleared',
  'tortoise.gate.name.last-bath': 'Last bath',
  'tortoise.gate.name.start-mass': 'Start mass',
  'tortoise.gate.state.passes': 'passes',
  'tortoise.gate.state.fails': 'fails',
  'tortoise.gate.state.borderline': 'borderline',
  'tortoise.gate.state.not-yet-known': 'not yet known',
  'tortoise.verdict.may-go-down': 'may go down',
  'tortoise.verdict.wait': 'wait',
  'tortoise.verdict.stay-awake': 'stay awake this winter',
  'tortoise.gate.species.hibernates': '{{species}} hibernates.',
  'tortoise.gate.species.formConfirmed':
    '{{species}}: its local form is confirmed as one that hibernates. Six weeks at most.',
  'tortoise.gate.species.identifyFirst':
    'Some lowland forms of {{species}} do not hibernate. Find out where its line comes from, with someone who knows the form, before it goes down.',
  'tortoise.gate.species.never': '{{species}} never hibernates: cold kills it. Keep it awake and warm.',
  'tortoise.gate.species.unidentified':
    'Nobody has said for sure what kind it is. Keep it awake until it is identified; the identification key or a vet who treats reptiles helps.',
  'tortoise.gate.age.first-winter': 'First winter: short only, and only by the advice the group follows.',
  'tortoise.gate.age.second-third-winter': 'Second or third winter: short only.',
  'tortoise.gate.age.juvenile': 'A young animal: short only.',
  'tortoise.gate.age.adult': 'Grown.',
  'tortoise.gate.age.elderly': 'Elderly: short only, and after a vet’s check.',
  'tortoise.gate.age.tooYoung.uk-joint-2016':
    'Joint UK veterinary advice (2016), which the group follows, lets no animal hibernate in its first winter or at about 5 cm. Keep it awake.',
  'tortoise.gate.measurements.fit': 'Mass and length can belong to one tortoise.',
  'tortoise.gate.appetite.unknown': 'Say whether it ate normally through the summer.',
  'tortoise.gate.appetite.normal': 'It ate normally through the summer.',
  'tortoise.gate.appetite.poor': 'It ate poorly through the summer: it has no reserves. Keep it awake and see a vet.',
  'tortoise.gate.summer-weight.unknown': 'Say whether its weight held or rose through the summer.',
  'tortoise.gate.summer-weight.normal': 'Its weight held or rose through the summer.',
  'tortoise.gate.summer-weight.poor': 'It lost weight through the summer. Keep it awake and see a vet about the cause.',
  'tortoise.gate.illness.unknown': 'Say whether it has been ill in the last 12 months.',
  'tortoise.gate.illness.none': 'No illness in the last 12 months.',
  'tortoise.gate.illness.now': 'It is ill now. Keep it awake and see a vet.',
  'tortoise.gate.illness.recent':
    'It was ill in the last 12 months. Keep it awake this winter, unless a vet has looked at it since and clears it.',
  'tortoise.gate.illness.cleared': 'It was ill in the last 12 months; a vet has cleared it since.',
  'tortoise.gate.treatment.unknown': 'Say whether it has been treated in the last 12 months.',
  'tortoise.gate.treatment.none': 'No treatment in the last 12 months.',
  'tortoise.gate.treatment.now': 'It is under treatment now. Keep it awake.',
  'tortoise.gate.treatment.recent':
    'It was treated in the last 12 months. Keep it awake this winter, unless a vet has looked at it since and clears it.',
  'tortoise.gate.treatment.cleared': 'It was treated in the last 12 months; a vet has cleared it since.',
  'tortoise.gate.new-arrival.unknown': 'Say since when it has been with you.',
  'tortoise.gate.new-arrival.none': 'It has been with its keeper for 12 months or more.',
  'tortoise.gate.new-arrival.now': 'It has only just arrived.',
  'tortoise.gate.new-arrival.recent':
    'It came less than 12 months ago, so nobody knows it through a whole year. Keep it awake this winter, unless a vet clears it.',
  'tortoise.gate.new-arrival.cleared': 'It came less than 12 months ago; a vet has cleared it since.',
  'tortoise.gate.parasites.checked': 'Checked for parasites this year.',
  'tortoise.gate.parasites.notChecked': 'Have fresh droppings looked at for parasites, early enough to treat.',
  'tortoise.gate.eggs.carrying':
    'She carries eggs. She must lay before any cold; if she does not, a vet must help. Keep her awake.',
  'tortoise.gate.eggs.male': 'A male.',
  'tortoise.gate.eggs.small': 'Too small to carry eggs.',
  'tortoise.gate.eggs.none': 'Not carrying eggs.',
  'tortoise.gate.eggs.unknown':
    'Find out whether she carries eggs: feel gently before the hind legs, or ask a vet for an X-ray.',
  'tortoise.gate.hydration.unknown': 'Say whether it drinks or soaks, with soft urates and eyes that are not sunken.',
  'tortoise.gate.hydration.good': 'It drinks or soaks well.',
  'tortoise.gate.hydration.dry': 'It is short of water. Bathe it daily and look again after a week.',
  'tortoise.gate.vet-check.done': 'A vet has looked at it within 12 months.',
  'tortoise.gate.vet-check.notNeeded': 'Nothing here asks for a vet’s check; one is always a good beginning.',
  'tortoise.gate.vet-check.old': 'An elderly animal: let a vet look at it before the winter.',
  'tortoise.gate.vet-check.new': 'A new arrival: let a vet look at it before the winter.',
  'tortoise.gate.vet-check.doubtful': 'One of the answers is doubtful: let a vet look at it before the winter.',
  'tortoise.gate.gut.unknown': 'Say whether its gut has cleared: no droppings for several days in a warm bath.',
  'tortoise.gate.gut.cleared': 'Its gut has cleared.',
  'tortoise.gate.gut.full':
    'There is still food in its gut, which would rot in the cold. Keep it warm by day without food, bathe it, and move the day.',
  'tortoise.gate.bath.unknown': 'Enter the day of the last bath.',
  'tortoise.gate.bath.wet': 'Bathed today: let it dry for a day at room temperature first.',
  'tortoise.gate.bath.done': 'Last bath {{days}} days before.',
  'tortoise.gate.bath.long': 'The last bath was {{days}} days ago. Bathe it once more, then let it dry for a day.',
  'tortoise.gate.start.unknown': 'Weigh it today: every later weighing is compared with this one.',
  'tortoise.gate.start.recorded': 'Goes down at {{start}}.',
  'tortoise.gate.start.differs':
    'The start mass {{start}} and the mass {{mass}} given with the length do not fit together. Weigh it again.',
} as const;

const examination = {
  'tortoise.examination.look.eyes': 'Look at both eyes in good light. They should be open, bright and full.',
  'tortoise.examination.look.nose': 'Look at both nostrils. They should be dry and open.',
  'tortoise.examination.look.mouth':
    'Press the lower jaw gently down, or wait for a yawn. Inside it should be pink and clean. Do not force it.',
  'tortoise.examination.look.limbs': 'Let all four legs hang, then feel the joints and the muscle of the forelegs.',
  'tortoise.examination.look.shell': 'Press, smell and look over the whole shell, the underside above all.',
  'tortoise.examination.look.tail': 'Look under the tail. The vent should be clean and closed.',
  'tortoise.examination.look.breathing': 'Watch and listen for a minute. You should hear nothing.',
  'tortoise.examination.look.droppings': 'Look at the last droppings and urates.',
  'tortoise.examination.look.breathing.asleep':
    'Listen. Breathing in the cold is too slow to see; a noise or bubbles is wrong.',
  'tortoise.examination.look.eyes.asleep': 'Look without lifting the animal: closed eyes are normal now.',
  'tortoise.examination.look.droppings.asleep': 'Look at the bedding under it: it should be dry and clean.',
  'tortoise.examination.look.limbs.asleep':
    'Touch a foot gently. It moves a little; head and legs may lie outside the shell.',
  'tortoise.examination.eyes.not-looked': 'The eyes have not been looked at.',
  'tortoise.examination.eyes.clear': 'Eyes open, bright and full.',
  'tortoise.examination.eyes.sunken': 'Eyes sunken: short of water, or ill.',
  'tortoise.examination.eyes.closed': 'Eyes kept closed: weak, ill, or something in the eye.',
  'tortoise.examination.eyes.swollen': 'Eyelids swollen: infection, or a lack in its food.',
  'tortoise.examination.eyes.discharge': 'Discharge from the eyes: infection.',
  'tortoise.examination.eyes.cloudy': 'Eyes cloudy: injury, age, or harm from cold.',
  'tortoise.examination.nose.not-looked': 'The nose has not been looked at.',
  'tortoise.examination.nose.clear': 'Nostrils dry and open.',
  'tortoise.examination.nose.discharge':
    'Runny nose: an infection of the airways, which cold makes worse and others catch.',
  'tortoise.examination.nose.blocked':
    'A nostril is blocked: dirt, or the beginning of an infection. Clean it gently and look again.',
  'tortoise.examination.mouth.not-looked': 'The mouth has not been looked at.',
  'tortoise.examination.mouth.clear': 'Mouth pink and clean.',
  'tortoise.examination.mouth.plaque': 'Yellow or white plaque in the mouth: an infection.',
  'tortoise.examination.mouth.slime': 'Stringy slime in the mouth: an infection of mouth or lungs.',
  'tortoise.examination.mouth.reddened': 'The mouth is reddened: an infection.',
  'tortoise.examination.mouth.would-not-open':
    'It would not open its mouth. Try again on another day, or let a vet look.',
  'tortoise.examination.limbs.not-looked': 'The limbs have not been looked at.',
  'tortoise.examination.limbs.clear': 'Limbs strong, joints slim, muscle full.',
  'tortoise.examination.limbs.swollen': 'A joint or limb is swollen: gout, infection or a break.',
  'tortoise.examination.limbs.weak': 'It walks weakly or drags a leg.',
  'tortoise.examination.limbs.thin': 'Little muscle on the forelegs: its reserves are used up.',
  'tortoise.examination.limbs.wound': 'A wound on a limb.',
  'tortoise.examination.limbs.no-response':
    'No movement when a foot is touched. Near 5 °C that happens; look again in an hour, and if there is still none, follow the page on an animal that does not respond.',
  'tortoise.examination.shell.not-looked': 'The shell has not been looked at.',
  'tortoise.examination.shell.clear': 'Shell hard and clean, without smell.',
  'tortoise.examination.shell.soft': 'The shell gives to the thumb: disease of the bone, or rot.',
  'tortoise.examination.shell.soft-young':
    'The shell still gives a little, as in the first year or two. Ask a vet whether it is as firm as it should be.',
  'tortoise.examination.shell.smell': 'The shell smells: rot.',
  'tortoise.examination.shell.discharge': 'Something oozes from the shell: an infection.',
  'tortoise.examination.shell.reddened':
    'Reddening under the scutes, on the underside above all: blood poisoning is possible. See a vet at once.',
  'tortoise.examination.shell.old-damage': 'Old damage, healed, hard and dry.',
  'tortoise.examination.tail.not-looked': 'Tail and vent have not been looked at.',
  'tortoise.examination.tail.clear': 'Tail and vent clean and closed.',
  'tortoise.examination.tail.soiled': 'The vent is soiled: loose droppings or a weak animal. Clean it and look again.',
  'tortoise.examination.tail.swollen': 'Tail or vent swollen.',
  'tortoise.examination.tail.discharge': 'Discharge from the vent: an infection.',
  'tortoise.examination.tail.prolapse': 'Tissue hangs out of the vent. Keep it wet and see a vet today.',
  'tortoise.examination.breathing.not-looked': 'The breathing has not been listened to.',
  'tortoise.examination.breathing.clear': 'Breathing without a sound.',
  'tortoise.examination.breathing.noisy': 'Clicking, wheezing or whistling: an infection of the airways.',
  'tortoise.examination.breathing.open-mouthed': 'It breathes with open mouth or stretched neck: it is short of air.',
  'tortoise.examination.breathing.bubbles': 'Bubbles at nose or mouth: an infection of the airways.',
  'tortoise.examination.droppings.not-looked': 'The droppings have not been looked at.',
  'tortoise.examination.droppings.clear': 'Droppings firm, urates soft and white; asleep: clean bedding.',
  'tortoise.examination.droppings.none': 'No droppings or urine seen lately.',
  'tortoise.examination.droppings.loose': 'Loose droppings: the food, or parasites. Have them looked at.',
  'tortoise.examination.droppings.undigested': 'Undigested food in the droppings: it is too cold to digest, or ill.',
  'tortoise.examination.droppings.worms': 'Worms in the droppings. Let a vet treat it first.',
  'tortoise.examination.droppings.blood': 'Blood in the droppings.',
  'tortoise.examination.droppings.urine': 'Urine passed while asleep: its store of water is gone.',
  'tortoise.examination.droppings.passed':
    'Droppings in the bedding: the gut was not empty. Clean, weigh, and look again tomorrow.',
  'tortoise.examination.advice.before.passes': 'Nothing to do.',
  'tortoise.examination.advice.before.borderline':
    'Wait, put right what can be put right, and look again; ask a vet if it stays.',
  'tortoise.examination.advice.before.not-yet-known': 'Look before anything is decided.',
  'tortoise.examination.advice.before.fails': 'Keep it awake this winter and see a vet who treats reptiles.',
  'tortoise.examination.advice.asleep.passes': 'Let it sleep.',
  'tortoise.examination.advice.asleep.borderline':
    'Weigh it, write it down, and look again tomorrow; ring a vet if it is no better.',
  'tortoise.examination.advice.asleep.not-yet-known': 'Nothing need be forced open or turned while it sleeps.',
  'tortoise.examination.advice.asleep.fails':
    'End the hibernation now: bring it into the warm slowly, bathe it, and ring a vet who treats reptiles today.',
  'tortoise.examination.advice.waking.passes': 'Nothing to do.',
  'tortoise.examination.advice.waking.borderline':
    'Bathe it daily in tepid water, keep it warm, and look again tomorrow; a vet by day 7 at the latest.',
  'tortoise.examination.advice.waking.not-yet-known': 'Look again once it is warm and awake.',
  'tortoise.examination.advice.waking.fails': 'Keep it warm and ring a vet who treats reptiles today.',
} as const;

const key = {
  'tortoise.key.ask.nuchal':
    'Is there a small narrow scute in the middle of the front edge of the shell, above the neck?',
  'tortoise.key.answer.nuchal.present': 'There is one',
  'tortoise.key.answer.nuchal.absent': 'There is none',
  'tortoise.key.ask.supracaudal': 'Is the scute above the tail one piece or divided by a seam?',
  'tortoise.key.answer.supracaudal.whole': 'One piece',
  'tortoise.key.answer.supracaudal.divided': 'Divided',
  'tortoise.key.ask.thighSpurs': 'Are there spurs on the back of the thighs, beside the tail?',
  'tortoise.key.answer.thighSpurs.none': 'None',
  'tortoise.key.answer.thighSpurs.one-each-side': 'One clear spur each side',
  'tortoise.key.answer.thighSpurs.several-small': 'Several small ones',
  'tortoise.key.answer.thighSpurs.large': 'Two or three big ones',
  'tortoise.key.ask.tailNail': 'Does the tail end in a horny nail?',
  'tortoise.key.answer.tailNail.present': 'It does',
  'tortoise.key.answer.tailNail.absent': 'It does not',
  'tortoise.key.ask.foreClaws': 'How many claws has each forefoot?',
  'tortoise.key.answer.foreClaws.four': 'Four',
  'tortoise.key.answer.foreClaws.five': 'Five',
  'tortoise.key.ask.plastronHinge': 'Does the rear part of the underside move when pressed very gently?',
  'tortoise.key.answer.plastronHinge.movable': 'It moves',
  'tortoise.key.answer.plastronHinge.slight': 'A little',
  'tortoise.key.answer.plastronHinge.fixed': 'It is fixed',
  'tortoise.key.ask.carapaceHinge': 'Is there a hinge across the rear of the upper shell?',
  'tortoise.key.answer.carapaceHinge.present': 'There is one',
  'tortoise.key.answer.carapaceHinge.absent': 'There is none',
  'tortoise.key.ask.rearMarginals': 'Do the rear edges of the shell spread outwards like a skirt?',
  'tortoise.key.answer.rearMarginals.flared': 'They spread',
  'tortoise.key.answer.rearMarginals.not-flared': 'They do not',
  'tortoise.key.ask.vertebrals': 'Are the scutes along the middle of the back wider than long?',
  'tortoise.key.answer.vertebrals.wide': 'Wider than long',
  'tortoise.key.answer.vertebrals.narrow': 'Longer than wide',
  'tortoise.key.ask.plastronPattern': 'What is the pattern on the underside?',
  'tortoise.key.answer.plastronPattern.two-bands': 'Two unbroken dark bands',
  'tortoise.key.answer.plastronPattern.broken-bands': 'Two broken dark bands',
  'tortoise.key.answer.plastronPattern.blotches': 'Dark centre or blotches',
  'tortoise.key.answer.plastronPattern.triangles': 'Dark triangles',
  'tortoise.key.answer.plastronPattern.rays': 'Rays',
  'tortoise.key.answer.plastronPattern.plain': 'Plain',
  'tortoise.key.ask.shellShape': 'What shape is the shell?',
  'tortoise.key.answer.shellShape.domed': 'Domed',
  'tortoise.key.answer.shellShape.long': 'Long',
  'tortoise.key.answer.shellShape.round-flat': 'Round and rather flat',
  'tortoise.key.answer.shellShape.very-flat-soft': 'Very flat, and it gives',
  'tortoise.key.ask.topPattern': 'What is the pattern on top?',
  'tortoise.key.answer.topPattern.rays': 'Rays from each scute’s middle',
  'tortoise.key.answer.topPattern.pale-centres': 'Dark with pale centres',
  'tortoise.key.answer.topPattern.spots': 'Spots',
  'tortoise.key.answer.topPattern.plain': 'Plain',
  'tortoise.key.answer.topPattern.blotches': 'Dark blotches on yellow or olive',
  'tortoise.key.ask.legScales': 'Are there red, orange or yellow scales on the forelegs?',
  'tortoise.key.answer.legScales.red-orange-yellow': 'There are',
  'tortoise.key.answer.legScales.ordinary': 'There are none',
  'tortoise.key.certain': 'It fits {{taxon}} and nothing else in the key.',
  'tortoise.key.spurAndNail':
    'Spurs on the thighs and a nail on the tail together point to a hybrid: not certain. Keep it awake until someone who knows both kinds has seen it.',
  'tortoise.key.noNuchal': 'Without a nuchal scute it is none of the kinds that hibernate.',
  'tortoise.key.few': 'No single character is final: look at {{number}} or more.',
  'tortoise.key.rare': 'Something seen is rare in {{taxon}}. Look again; it may be another kind or a hybrid.',
  'tortoise.key.several': 'Not certain: {{number}} kinds remain possible.',
} as const;

const inputs = {
  'tortoise.input.species':
    'There is no tortoise "{{name}}" in the species table. Give the scientific name, or "unknown" when nobody is sure; an unknown animal stays awake.',
  'tortoise.input.speciesNear':
    'There is no tortoise "{{name}}" in the species table. Did you mean {{near}}? When nobody is sure, give "unknown"; such an animal stays awake.',
  'tortoise.input.age':
    'The age is missing. Give ageYears or birthDate; when nobody knows the years, give ageClass: hatchling, juvenile, adult or elderly.',
  'tortoise.input.future': '{{day}} lies after {{onDay}}, the day it is asked for. Check the date.',
  'tortoise.source.read': '',
  'tortoise.source.abstract': 'abstract read',
  'tortoise.source.quoted': 'as quoted elsewhere',
  'tortoise.source.data': 'computed on the published data',
  'tortoise.source.from-memory': 'from memory, not re-read',
  'tortoise.source.derived': 'derived',
  'tortoise.source.common-practice': '',
  'tortoise.source.estimate': 'our estimate',
} as const;

export const tortoiseWords = {
  ...key,
  ...inputs,
  ...cautions,
  ...sizes,
  ...condition,
  ...lengths,
  ...gates,
  ...examination,
} as const;
