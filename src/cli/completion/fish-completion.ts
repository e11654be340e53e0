import type { Candidates, CommandWords } from './completion-table.js';

const quoted = (text: string): string => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;

/** What fish offers as arguments of a place: flags of `complete`. */
const offered = (candidates: Candidates): string => {
  switch (candidates.kind) {
    case 'words':
      return `-f -a ${quoted(candidates.words.join(' '))}`;
    case 'folders':
      return "-f -a '(__fish_complete_directories)'";
    case 'files':
      return candidates.endings.length === 0
        ? '-F'
        : `-f -a '(__thole_files ${candidates.endings.join(' ')})'`;
    case 'none':
      return '-f';
  }
};

const commandLines = ({ name, summary, options, operands }: CommandWords): readonly string[] => [
  `complete -c thole -n __fish_use_subcommand -f -a ${name} -d ${quoted(summary)}`,
  ...options.map(({ name: option, help, value }) =>
    [
      `complete -c thole -n '__fish_seen_subcommand_from ${name}' -l ${option.slice(2)}`,
      value === null ? '' : ` -r ${offered(value)}`,
      ` -d ${quoted(help)}`,
    ].join(''),
  ),
  ...operands.map((operand, i) => {
    const valued = options.filter(({ value }) => value !== null).map(({ name: option }) => option);
    const place = `${i} ${i === operands.length - 1 ? 'last' : 'one'}`;
    return `complete -c thole -n '__thole_place ${name} ${place} ${valued.join(' ')}' ${offered(operand)}`;
  }),
];

/** Completion for fish: a file for its folder of completions, or to be sourced. */
export const fishCompletion = (commands: readonly CommandWords[]): string => `# fish completion for thole
# Load it with: thole completion fish | source
function __thole_files
  set -l token (commandline -ct)
  for name in $token*
    if test -d $name
      echo $name/
    else
      for ending in $argv
        string match -qi "*.$ending" -- $name; and echo $name
      end
    end
  end
end
function __thole_place
  set -l words (commandline -opc)
  test "$words[2]" = $argv[1]; or return 1
  set -l count 0
  set -l valued no
  for word in $words[3..-1]
    if test $valued = yes
      set valued no
    else if string match -q -- '-*' $word
      contains -- $word $argv[4..-1]; and set valued yes
    else
      set count (math $count + 1)
    end
  end
  test $count = $argv[2]; and return 0
  test $argv[3] = last; and test $count -gt $argv[2]
end
complete -c thole -f
complete -c thole -n __fish_use_subcommand -l version -d 'print the version'
complete -c thole -n __fish_use_subcommand -f -a help -d 'show help for a command'
complete -c thole -n '__fish_seen_subcommand_from help' -f -a '${commands.map(({ name }) => name).join(' ')}'
${commands.flatMap(commandLines).join('\n')}
`;
