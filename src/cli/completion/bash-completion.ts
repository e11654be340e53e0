import type { Candidates, CommandWords } from './completion-table.js';

/** Shell code that sets COMPREPLY to what may stand in a place. */
const replied = (candidates: Candidates): string => {
  switch (candidates.kind) {
    case 'words':
      return `COMPREPLY=($(compgen -W '${candidates.words.join(' ')}' -- "$cur"))`;
    case 'folders':
      return '_thole_files ""';
    case 'files':
      return `_thole_files '${candidates.endings.length === 0 ? '*' : `*.@(${candidates.endings.join('|')})`}'`;
    case 'none':
      return 'COMPREPLY=()';
  }
};

const optionCase = ({ options }: CommandWords): readonly string[] =>
  options.flatMap(({ name, value }) =>
    value === null ? [] : [`        ${name}) ${replied(value)}; return ;;`],
  );

const operandCase = ({ operands }: CommandWords): readonly string[] =>
  operands.map(
    (candidates, i) => `        ${i === operands.length - 1 ? '*' : i}) ${replied(candidates)}; return ;;`,
  );

const commandCase = (command: CommandWords): string => {
  const withValue = command.options.filter(({ value }) => value !== null).map(({ name }) => name);
  const operands = operandCase(command);
  return [
    `    ${command.name})`,
    `      valued=' ${withValue.join(' ')} '`,
    '      case "$prev" in',
    ...optionCase(command),
    '      esac',
    '      if [[ $cur == -* ]]; then',
    `        COMPREPLY=($(compgen -W '${command.options.map(({ name }) => name).join(' ')}' -- "$cur"))`,
    '        return',
    '      fi',
    ...(operands.length === 0
      ? []
      : ['      case "$(_thole_operands "$valued")" in', ...operands, '      esac']),
    '      ;;',
  ].join('\n');
};

/** Completion for bash: a script to be sourced. */
export const bashCompletion = (commands: readonly CommandWords[]): string => `# bash completion for thole
# Load it with: source <(thole completion bash)
_thole_files() {
  local name
  COMPREPLY=()
  while IFS= read -r name; do
    if [[ -d $name ]]; then COMPREPLY+=("$name/")
    elif [[ -n $1 && \${name,,} == $1 ]]; then COMPREPLY+=("$name"); fi
  done < <(compgen -f -- "$cur")
  compopt -o filenames -o nospace 2>/dev/null
  [[ \${#COMPREPLY[@]} -eq 1 && \${COMPREPLY[0]} != */ ]] && compopt +o nospace 2>/dev/null
}
_thole_operands() {
  local i count=0
  for ((i = 2; i < COMP_CWORD; i++)); do
    case "\${COMP_WORDS[i]}" in
      -*) [[ $1 == *" \${COMP_WORDS[i]} "* ]] && ((i++)) ;;
      *) ((count++)) ;;
    esac
  done
  echo "$count"
}
_thole() {
  local cur=\${COMP_WORDS[COMP_CWORD]} prev=\${COMP_WORDS[COMP_CWORD - 1]} valued glob
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    COMPREPLY=($(compgen -W '${commands.map(({ name }) => name).join(' ')} help --help --version' -- "$cur"))
    return
  fi
  glob=$(shopt -p extglob)
  shopt -s extglob
  case "\${COMP_WORDS[1]}" in
    help) COMPREPLY=($(compgen -W '${commands.map(({ name }) => name).join(' ')}' -- "$cur")) ;;
${commands.map(commandCase).join('\n')}
  esac
  $glob
}
complete -F _thole thole
`;
