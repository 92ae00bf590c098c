import type { z } from 'zod';
import { type MessageKey, say } from '../wording/say.ts';

/** One thing wrong with an input: where it stands (`findings.eyes`, `[3].massG`) and what is wrong and what to do. */
export interface Problem {
  readonly where: string;
  readonly what: string;
}

/** A path as a person reads it: `climateNormals[3].minC`; the whole input is `input`. */
export function pathText(path: readonly PropertyKey[]): string {
  let text = '';
  for (const part of path)
    text += typeof part === 'number' ? `[${part}]` : text === '' ? String(part) : `.${String(part)}`;
  return text === '' ? 'input' : text;
}

const RULE = 'schema.rule.';

/** Puts every issue Zod found into the plain sentences of the catalogue. */
export function problemsOf(error: z.ZodError): Problem[] {
  return error.issues.flatMap((issue) => issueProblems(issue));
}

function issueProblems(issue: z.core.$ZodIssue): Problem[] {
  const where = pathText(issue.path);
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((name) => ({
      where: pathText([...issue.path, name]),
      what: say('schema.unknownField', { name }),
    }));
  if (issue.code === 'invalid_union') {
    // The branch with the fewest complaints is the one that was meant.
    const nearest = [...issue.errors].sort((a, b) => a.length - b.length)[0];
    if (nearest && nearest.length > 0 && issue.errors.length > 1)
      return nearest.flatMap((inner) => issueProblems({ ...inner, path: [...issue.path, ...inner.path] }));
    return [{ where, what: say('schema.noChoiceFits') }];
  }
  return [{ where, what: sentence(issue) }];
}

function sentence(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type': {
      if (issue.input === undefined && /received undefined/.test(issue.message)) return say('schema.missing');
      if (issue.expected === 'int') return say('schema.whole');
      const known = ['number', 'string', 'boolean', 'array', 'object'].includes(issue.expected);
      return say(`schema.type.${known ? issue.expected : 'other'}` as MessageKey);
    }
    case 'invalid_value':
      return say('schema.notOneOf', { choices: issue.values.map(String).join(', ') });
    case 'too_small':
      return say(`schema.${SMALL[issue.origin] ?? 'tooSmall'}` as MessageKey, { limit: String(issue.minimum) });
    case 'too_big':
      return say(`schema.${BIG[issue.origin] ?? 'tooBig'}` as MessageKey, { limit: String(issue.maximum) });
    case 'invalid_format': {
      if (issue.format === 'datetime') return say('schema.instant');
      if (issue.format === 'uuid') return say('schema.uuid');
      return ruleSentence(issue.message);
    }
    default:
      return ruleSentence(issue.message);
  }
}

const SMALL: Record<string, string> = { string: 'tooShort', array: 'tooFew', set: 'tooFew' };
const BIG: Record<string, string> = { string: 'tooLong', array: 'tooMany', set: 'tooMany' };

/** Refinements carry the name of their rule as message; any other message stands as it was written. */
function ruleSentence(text: string): string {
  try {
    return say(`${RULE}${text}` as MessageKey);
  } catch {
    return /^[A-Z].* /.test(text) && !text.startsWith('Invalid') ? text : say('schema.notRight');
  }
}
