import { parseInputFile } from '../contract/input-file.js';
import { type Plan, plan, planOf, planOfSteps } from '../contract/plan.js';
import { parsePlanText } from '../contract/plan-text.js';
import { inputText, inputTextIfThere } from '../host/input-text.js';

/** Does a word of the command line look like a plan rather than like the name of a file? */
const isText = (word: string): boolean => /^\s*[\d(]|@/.test(word) && !/\.[a-z]\w*$/i.test(word);

/** Longest word that is looked for as a file: no system has longer names. */
const LONGEST_NAME = 250;

const planIn = (text: string, path: string): Plan =>
  path.toLowerCase().endsWith('.json') || text.trimStart().startsWith('{')
    ? planOf(parseInputFile(plan, text, path).value)
    : planOfSteps(parsePlanText(text, path));

/**
 * The plan that a word of the command line gives: a text as it stands on a whiteboard, or a file that holds one,
 * or a plan file in JSON.
 * @throws UserError where it cannot be read, with the mistake marked under the text
 */
export const askedPlan = async (word: string): Promise<Plan> => {
  if (!isText(word)) return planIn(await inputText(word, 'plan'), word);
  const text = word.length > LONGEST_NAME ? null : await inputTextIfThere(word, 'plan');
  return text === null ? planOfSteps(parsePlanText(word, 'the plan')) : planIn(text, word);
};
