// Answers of the invented demonstration group, each list cut to its first line.
const ASSESSMENT = {
  verdict: 'may-go-down',
  gates: [
    {
      name: 'species',
      state: 'passes',
      reason: {
        key: 'tortoise.gate.species.hibernates',
        values: {
          species: 'Testudo hermanni boettgeri',
        },
      },
      source: {
        cite: 'common practice; In & Around magazine, veterinary column, 2022/09, p. 24',
        status: 'read',
        note: 'Hibernating is common practice; the column gives 12 weeks.',
      },
    },
  ],
  condition: {
    band: 'normal',
    state: 'passes',
    reason: {
      key: 'tortoise.condition.normal',
      values: {
        share: '93 %',
        ratio: '0.203',
        mass: '1,144 g',
      },
    },
    source: {
      cite: 'Willemsen & Hailey 2002, Herpetol. J. 12:105-114; Hailey 2000, Herpetol. J. 10:57-61',
      status: 'abstract',
      note: 'Most wild animals lie within -0.1 and +0.1 of the expected mass on a log10 scale, about 80 to 125 %.',
    },
    jacksonRatio: 0.203,
    jacksonBand: 'acceptable',
    expectedMassG: 1228.098,
    conditionIndex: -0.03,
    curve: 'wild females of Lake Prespa',
    ownExpectedMassG: 1157.918,
    ownConditionIndex: -0.004,
    weighings: 3,
    notes: [],
  },
  length: {
    suggestedDays: 84,
    shortestDays: 42,
    ceilingDays: 91,
    lengthClass: 'adult',
    advice: 'uk-joint-2016',
    reasons: [
      {
        key: 'tortoise.length.uk-joint-2016.adult',
      },
    ],
    source: {
      cite: 'BSAVA, BVZS and BVA, joint release, 2016-10-18',
      status: 'read',
      note: 'Three months at most; none before the second to fourth winter, then six weeks.',
    },
  },
  cautions: [
    {
      key: 'tortoise.caution.vet',
    },
  ],
};

const PLAN = {
  id: '0192aaaa-0000-7000-8000-000000011900',
  animalId: '0192aaaa-0000-7000-8000-000000000011',
  revision: 1,
  madeAt: '2026-09-17T18:00:00.000Z',
  reason: 'First plan',
  request: {
    species: 'Testudo hermanni boettgeri',
    sclMm: 178,
    latitudeDeg: 52.3,
    wish: 'sleep',
    sleepDay: '2026-11-05',
    sleepDays: 82,
  },
  plan: {
    kind: 'sleep',
    request: {
      species: 'Testudo hermanni boettgeri',
      sclMm: 178,
      latitudeDeg: 52.3,
      wish: 'sleep',
      sleepDay: '2026-11-05',
      sleepDays: 82,
    },
    winter: '2026',
    hemisphere: 'north',
    shortestDay: '2026-12-21',
    madeOn: '2026-09-17',
    provisional: false,
    fromDay: '2026-08-05',
    toDay: '2027-03-23',
    sleepDay: '2026-11-05',
    wakeDay: '2027-01-26',
    length: {
      days: 82,
      suggestedDays: 84,
      ceilingDays: 91,
      massLimitDays: 88,
      limitedBy: 'wish',
      say: {
        key: 'winter.length.wish',
        values: {
          count: 82,
          ceiling: 91,
        },
      },
      source: {
        cite: 'BSAVA, BVZS and BVA, joint release, 2016-10-18',
        status: 'read',
        note: 'Three months at most; none before the second to fourth winter, then six weeks.',
      },
    },
    gut: {
      expectedDay: '2026-10-31',
      earliestDay: '2026-10-22',
      latestDay: '2026-11-17',
    },
    stages: [
      {
        name: 'feeding-up',
        fromDay: '2026-08-05',
        toDay: '2026-09-29',
        purpose: {
          key: 'winter.stage.feeding-up',
        },
      },
    ],
    tasks: [
      {
        key: 'feed-up',
        kind: 'feed',
        day: '2026-09-17',
        say: {
          key: 'winter.task.feedUp',
        },
        source: {
          cite: 'common practice, no source',
          status: 'common-practice',
        },
        untilDay: '2026-09-29',
      },
    ],
    lamp: [
      {
        fromDay: '2026-09-30',
        hours: 10,
        dayLengthHours: 11.68,
        followsDayLength: false,
      },
    ],
    notes: [
      {
        level: 'choice',
        code: 'length-advice',
        say: {
          key: 'winter.choice.advice.uk-joint-2016',
          values: {},
        },
        source: {
          cite: 'BSAVA, BVZS and BVA, joint release, 2016-10-18',
          status: 'read',
          note: 'Three months at most; none before the second to fourth winter, then six weeks.',
        },
      },
    ],
  },
};

const HISTORY = {
  animal: {
    id: '0192aaaa-0000-7000-8000-000000000011',
    name: 'Sedge',
    species: 'Testudo hermanni boettgeri',
    sex: 'female',
    birthDate: '2009-08-12',
    acquiredOn: '2010-10-26',
    marks: 'A chip out of the third marginal on the left.',
    wintersSlept: 15,
    revision: 1,
  },
  measurements: [
    {
      id: '0192aaaa-0000-7000-8000-000000011020',
      animalId: '0192aaaa-0000-7000-8000-000000000011',
      at: '2024-10-15T15:00:00.000Z',
      massG: 1058,
      sclMm: 171,
      kind: 'routine',
      revision: 1,
    },
  ],
  examinations: [
    {
      id: '0192aaaa-0000-7000-8000-000000011023',
      animalId: '0192aaaa-0000-7000-8000-000000000011',
      at: '2026-09-16T16:00:00.000Z',
      moment: 'before',
      findings: {
        eyes: 'clear',
        nose: 'clear',
        mouth: 'clear',
        limbs: 'clear',
        shell: 'clear',
        tail: 'clear',
        breathing: 'clear',
        droppings: 'clear',
      },
      answers: {
        appetiteNormal: true,
        weightNormal: true,
        hydrated: true,
        carryingEggs: false,
        illness: false,
        treatment: false,
      },
      revision: 1,
    },
  ],
  healthEvents: [
    {
      id: '0192aaaa-0000-7000-8000-000000011022',
      animalId: '0192aaaa-0000-7000-8000-000000000011',
      kind: 'vet-check',
      fromDay: '2026-08-03',
      note: 'Yearly look, all well.',
      revision: 1,
    },
  ],
  diary: [
    {
      id: '0192aaaa-0000-7000-8000-000000011026',
      animalId: '0192aaaa-0000-7000-8000-000000000011',
      at: '2026-10-12T17:00:00.000Z',
      kind: 'bath',
      revision: 1,
    },
  ],
  photographs: [],
  stays: [
    {
      id: '0192aaaa-0000-7000-8000-000000011039',
      animalId: '0192aaaa-0000-7000-8000-000000000011',
      boxId: '0192aaaa-0000-7000-8000-000000000041',
      placeId: '0192aaaa-0000-7000-8000-000000000031',
      fromDay: '2026-11-05',
      revision: 1,
    },
  ],
  boxes: [
    {
      id: '0192aaaa-0000-7000-8000-000000000041',
      name: 'Fish box',
      placeId: '0192aaaa-0000-7000-8000-000000000031',
      description: {
        shells: [
          {
            insideLengthMm: 620,
            insideWidthMm: 465,
            insideHeightMm: 384,
            walls: [
              {
                material: 'polystyrene',
                thicknessMm: 40,
              },
            ],
            lidFit: 'loose',
            holes: {
              count: 8,
              diameterMm: 8,
            },
            fill: 'shredded-paper',
          },
        ],
        bedding: {
          material: 'shredded-paper',
          depthMm: 80,
        },
        ballast: [
          {
            bottles: 4,
            litresEach: 1.5,
          },
        ],
        animal: {
          massG: 1180,
        },
        probe: {
          at: 'beside-animal',
        },
      },
      revision: 1,
    },
  ],
  places: [
    {
      id: '0192aaaa-0000-7000-8000-000000000031',
      name: 'Potting house',
      description: {
        kind: 'building',
        preset: 'brick-outbuilding',
        facingDeg: 20,
        airChangesPerHour: 0.8,
      },
      revision: 1,
    },
  ],
  plans: [],
  notices: [],
  changes: [
    {
      kind: 'animal',
      recordId: '0192aaaa-0000-7000-8000-000000000011',
      revision: 1,
      action: 'made',
      at: '2024-07-04T19:00:00.000Z',
      after: {
        name: 'Sedge',
        species: 'Testudo hermanni boettgeri',
        sex: 'female',
        birthDate: '2009-08-12',
        acquiredOn: '2010-10-26',
        marks: 'A chip out of the third marginal on the left.',
        wintersSlept: 15,
      },
    },
  ],
};

const ROUND = {
  day: '2026-11-25',
  parts: [
    {
      placeId: '0192aaaa-0000-7000-8000-000000000032',
      placeName: 'Cart shed',
      stays: [
        {
          stayId: '0192aaaa-0000-7000-8000-000000012039',
          animalId: '0192aaaa-0000-7000-8000-000000000012',
          animalName: 'Bramble',
          boxId: '0192aaaa-0000-7000-8000-000000000042',
          boxName: 'Tea chest',
          fromDay: '2026-11-13',
          probeId: '0192aaaa-0000-7000-8000-000000000053',
          lastReading: {
            at: '2026-11-25T10:00:00.000Z',
            tempC: 3.875,
          },
          startMassG: 643,
          lastMassG: 642,
          lastMassAt: '2026-11-20T08:00:00.000Z',
        },
      ],
      lines: [],
    },
  ],
  notices: [],
};

/** Examples of the long answers: verdict, plan, history, round. */
export const RECORD_ANSWERS = {
  'get /api/v1/animals/{id}/assessment': { answer: ASSESSMENT },
  'get /api/v1/animals/{id}/plans': { answer: [PLAN] },
  'post /api/v1/animals/{id}/plans': {
    body: { id: PLAN.id, request: PLAN.request, reason: PLAN.reason },
    answer: PLAN,
  },
  'get /api/v1/animals/{id}/history': { answer: HISTORY },
  'get /api/v1/shared/{token}': {
    answer: { forWhom: 'Dr Hollis', until: '2027-02-01T00:00:00Z', history: { ...HISTORY, changes: [] } },
  },
  'get /api/v1/round': { answer: ROUND },
} as const;
