import { index, type Migration, table } from './build.ts';

const entry = {
  id: 'text!',
  groupId: 'text! -> groups.id',
  revision: 'integer!',
  recordedBy: 'text',
  recordedAtMs: 'integer!',
  changedBy: 'text',
  changedAtMs: 'integer!',
  deletedAtMs: 'integer',
};
const ofAnimal = { ...entry, animalId: 'text! -> animals.id' };

/** Groups, people, and everything a person enters, with its audit trail. */
export const base: Migration = {
  name: '0001-base',
  async up(kysely, kind) {
    const make = (name: string, columns: Record<string, string>, options = {}) =>
      table(kysely, kind, name, columns, options);

    await make('groups', {
      id: 'text!',
      name: 'text!',
      zone: 'text!',
      latitudeDeg: 'real!',
      longitudeDeg: 'real!',
      temperatureUnit: 'text!',
      massUnit: 'text!',
      lengthUnit: 'text!',
      lengthAdvice: 'text!',
      climateNormals: 'text',
      climateNote: 'text',
      demonstration: 'integer!',
      revision: 'integer!',
      recordedAtMs: 'integer!',
      changedBy: 'text',
      changedAtMs: 'integer!',
    });
    await make(
      'people',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        name: 'text!',
        signInName: 'text!',
        role: 'text!',
        passphraseHash: 'text!',
        createdAtMs: 'integer!',
        removedAtMs: 'integer',
      },
      { unique: [['signInName']] },
    );

    await make('animals', {
      ...entry,
      name: 'text!',
      species: 'text!',
      sex: 'text!',
      birthDate: 'text',
      ageYears: 'real',
      ageAsOf: 'text',
      ageClass: 'text',
      acquiredOn: 'text',
      microchip: 'text',
      marks: 'text',
      legalPaper: 'text',
      keeperId: 'text',
      wintersSlept: 'integer',
      notes: 'text',
    });
    await make('measurements', {
      ...ofAnimal,
      atMs: 'integer!',
      massG: 'real',
      sclMm: 'real',
      kind: 'text!',
      note: 'text',
    });
    await make('examinations', {
      ...ofAnimal,
      atMs: 'integer!',
      moment: 'text!',
      findings: 'text!',
      answers: 'text',
      vet: 'text',
      note: 'text',
    });
    await make('healthEvents', { ...ofAnimal, kind: 'text!', fromDay: 'text!', toDay: 'text', note: 'text' });
    await make('diaryEntries', { ...ofAnimal, atMs: 'integer!', kind: 'text!', note: 'text' });
    await make('photographs', {
      ...ofAnimal,
      takenOn: 'text',
      note: 'text',
      widthPx: 'integer!',
      heightPx: 'integer!',
      bytes: 'integer!',
    });
    await make(
      'photographBytes',
      { photographId: 'text! -> photographs.id', image: 'blob!' },
      { key: ['photographId'] },
    );
    await make('places', { ...entry, name: 'text!', description: 'text!' });
    await make('boxes', { ...entry, name: 'text!', placeId: 'text -> places.id', description: 'text!' });
    await make('stays', {
      ...ofAnimal,
      boxId: 'text! -> boxes.id',
      placeId: 'text! -> places.id',
      fromDay: 'text!',
      toDay: 'text',
      note: 'text',
    });
    await make('probes', {
      ...entry,
      name: 'text!',
      boxId: 'text -> boxes.id',
      placeId: 'text -> places.id',
      outdoors: 'integer',
      offsetC: 'real!',
      expectedIntervalS: 'real!',
    });
    await make('tasksDone', {
      ...entry,
      taskKey: 'text!',
      animalId: 'text -> animals.id',
      day: 'text!',
      atMs: 'integer!',
      outcome: 'text!',
      note: 'text',
    });
    await make(
      'plans',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        animalId: 'text! -> animals.id',
        winter: 'text!',
        revision: 'integer!',
        madeAtMs: 'integer!',
        madeBy: 'text',
        reason: 'text!',
        request: 'text!',
        plan: 'text!',
      },
      { unique: [['animalId', 'winter', 'revision']] },
    );
    await make(
      'notices',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        ruleId: 'text!',
        stayId: 'text! -> stays.id',
        level: 'text!',
        fromAtMs: 'integer!',
        clearedAtMs: 'integer',
        message: 'text!',
        acknowledgedBy: 'text',
        acknowledgedAtMs: 'integer',
        acknowledgedNote: 'text',
      },
      { unique: [['stayId', 'ruleId', 'fromAtMs']] },
    );
    await make(
      'changes',
      {
        id: 'text!',
        groupId: 'text!',
        kind: 'text!',
        recordId: 'text!',
        revision: 'integer!',
        action: 'text!',
        byPerson: 'text',
        atMs: 'integer!',
        before: 'text',
        after: 'text',
      },
      { unique: [['recordId', 'revision']] },
    );
    await make('editConflicts', {
      id: 'text!',
      groupId: 'text!',
      kind: 'text!',
      recordId: 'text!',
      baseRevision: 'integer!',
      body: 'text!',
      byPerson: 'text',
      atMs: 'integer!',
      settledAtMs: 'integer',
    });
    await make(
      'sessions',
      {
        tokenHash: 'text!',
        personId: 'text! -> people.id',
        createdAtMs: 'integer!',
        lastSeenAtMs: 'integer!',
        device: 'text',
      },
      { key: ['tokenHash'] },
    );
    await make(
      'invitations',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        tokenHash: 'text!',
        role: 'text!',
        animalIds: 'text!',
        invitedBy: 'text',
        untilMs: 'integer!',
        usedAtMs: 'integer',
      },
      { unique: [['tokenHash']] },
    );
    await make(
      'shareLinks',
      {
        id: 'text!',
        groupId: 'text! -> groups.id',
        animalId: 'text! -> animals.id',
        forWhom: 'text!',
        tokenHash: 'text!',
        untilMs: 'integer!',
        revokedAtMs: 'integer',
        madeBy: 'text',
        madeAtMs: 'integer!',
      },
      { unique: [['tokenHash']] },
    );
    await make('settings', { groupId: 'text!', name: 'text!', value: 'text!' }, { key: ['groupId', 'name'] });

    for (const [name, on, columns] of [
      ['animals_group', 'animals', ['groupId']],
      ['measurements_animal', 'measurements', ['animalId', 'atMs']],
      ['examinations_animal', 'examinations', ['animalId', 'atMs']],
      ['health_events_animal', 'healthEvents', ['animalId', 'fromDay']],
      ['diary_entries_animal', 'diaryEntries', ['animalId', 'atMs']],
      ['photographs_animal', 'photographs', ['animalId']],
      ['stays_animal', 'stays', ['animalId', 'fromDay']],
      ['stays_box', 'stays', ['boxId']],
      ['tasks_done_day', 'tasksDone', ['groupId', 'day']],
      ['plans_animal', 'plans', ['animalId', 'madeAtMs']],
      ['notices_group', 'notices', ['groupId', 'fromAtMs']],
      ['changes_group', 'changes', ['groupId', 'atMs']],
      ['sessions_person', 'sessions', ['personId']],
    ] as const)
      await index(kysely, name, on, columns);
  },
};
