import { parseInputFile } from '../contract/input-file.js';
import { type Rule, rulesFile } from '../contract/rules.js';
import { parseFigure } from './figure.js';

/**
 * Read a rules file, every figure checked against the results that there are.
 * @param name the file as messages name it
 * @throws UserError with the line, the key and what is allowed
 */
export const parseRules = (text: string, name: string): readonly Rule[] => {
  const { value, errorAt } = parseInputFile(rulesFile, text, name);
  value.rules.forEach(({ figure, within }, i) => {
    const read = parseFigure(figure);
    if ('wrong' in read) throw errorAt(['rules', i, 'figure'], `key "figure": ${read.wrong}`);
    const of = typeof within?.of === 'string' ? parseFigure(within.of) : null;
    if (of !== null && 'wrong' in of) throw errorAt(['rules', i, 'within', 'of'], `key "of": ${of.wrong}`);
  });
  return value.rules;
};
