/** Words of records taken along: archives out and in, and backups. */
export const webKeepingWords = {
  'web.keeping.title': 'The records themselves',
  'web.keeping.out': 'Take everything along',
  'web.keeping.outLead':
    'One file with every animal, plan, reading and photograph of the group, in open forms a spreadsheet can read. Stillwinter takes it in again without loss. Passphrases and links are not in it.',
  'web.keeping.outDo': 'Download everything (zip)',
  'web.keeping.in': 'Take in an archive',
  'web.keeping.inLead':
    'An animal that comes from another keeper can bring its history: ask them for its archive (on the animal’s page, “Hand over to another keeper”). You see what it holds before anything is taken in.',
  'web.keeping.choose': 'Choose an archive',
  'web.keeping.sending': 'Sending {{file}}, {{percent}} %',
  'web.keeping.made': 'Archive made {{at}}',
  'web.keeping.ofGroup': 'Everything of the group {{name}}.',
  'web.keeping.new': '{{name}} is new here and has no keeper yet.',
  'web.keeping.known': '{{name}} is here already: only what is missing is added.',
  'web.keeping.holds': 'It holds {{records}} records, {{photographs}} photographs and {{readings}} readings.',
  'web.keeping.do': 'Take it in',
  'web.keeping.taking': 'Taking it in …',
  'web.keeping.taken': 'Taken in: {{records}} records and {{readings}} readings that were not here.',
  'web.keeping.differing_one':
    'One record is here already and says something else. It stays as it is here; the archive still holds the other.',
  'web.keeping.differing_other':
    '{{count}} records are here already and say something else. They stay as they are here; the archive still holds the others.',
  'web.keeping.backups': 'Backups',
  'web.keeping.backup': 'The newest backup is from {{at}}, {{size}} MB; {{count}} are kept.',
  'web.keeping.noBackup': 'There is no backup yet. The first is made a minute after the start, then one each day.',
  'web.keeping.ownTools':
    'These records lie in PostgreSQL, which is backed up with its own tools. The archive above is a copy in open forms.',
  'web.keeping.backupDo': 'Make a backup now',
  'web.keeping.backupWhere':
    'Backups lie on the same disk as the records. Copy them to another now and then; “stillwinter restore” puts one back.',
  'web.keeping.hand': 'Hand over to another keeper',
  'web.keeping.handLead':
    'Download the whole history of {{name}}: weighings, examinations, plans, winters, photographs and the readings of its boxes. The other keeper takes it in under Group, The records themselves. The animal stays here too until you delete it. Check first what the law asks when an animal changes hands.',
  'web.keeping.handDo': 'Download the history (zip)',
} as const;
