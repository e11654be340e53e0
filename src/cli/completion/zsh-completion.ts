import type { Candidates, CommandWords, OptionWords } from './completion-table.js';

/** Text inside single quotes, in which _arguments reads brackets and colons. */
const quoted = (text: string): string =>
  text.replaceAll("'", "'\\''").replace(/[[\]:]/g, (sign) => `\\${sign}`);

const action = (candidates: Candidates): string => {
  switch (candidates.kind) {
    case 'words':
      return `(${candidates.words.join(' ')})`;
    case 'folders':
      return '_files -/';
    case 'files':
      return candidates.endings.length === 0
        ? '_files'
        : `_files -g "(#i)*.(${candidates.endings.join('|')})(-.)"`;
    case 'none':
      return ' ';
  }
};

const optionSpec = ({ name, help, value }: OptionWords): string =>
  `'${name}[${quoted(help)}]${value === null ? '' : `:value:${action(value)}`}'`;

const operandSpecs = ({ operands }: CommandWords): readonly string[] =>
  operands.map((candidates, i) => `'${i === operands.length - 1 ? '*' : i + 1}:file:${action(candidates)}'`);

const commandCase = (command: CommandWords): string =>
  `    ${command.name}) _arguments ${[...command.options.map(optionSpec), ...operandSpecs(command)].join(' \\\n      ')} ;;`;

/** Completion for zsh: a file for a folder of fpath, or to be sourced after compinit. */
export const zshCompletion = (commands: readonly CommandWords[]): string => `#compdef thole
# zsh completion for thole
# Load it with: source <(thole completion zsh), after compinit
_thole() {
  local -a names
  names=(
${commands.map(({ name, summary }) => `    '${name}:${quoted(summary)}'`).join('\n')}
    'help:show help for a command'
  )
  if ((CURRENT == 2)); then
    _describe command names
    return
  fi
  shift words
  ((CURRENT--))
  case $words[1] in
    help) _describe command names ;;
${commands.map(commandCase).join('\n')}
  esac
}
if [[ $funcstack[1] == _thole ]]; then _thole "$@"; else compdef _thole thole; fi
`;
