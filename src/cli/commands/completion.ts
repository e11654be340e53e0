import { SCHEMA_NAMES } from '../../contract/json-schema.js';
import { UserError } from '../../units/user-error.js';
import { command } from '../command.js';
import { bashCompletion } from '../completion/bash-completion.js';
import { completionTable } from '../completion/completion-table.js';
import { fishCompletion } from '../completion/fish-completion.js';
import { zshCompletion } from '../completion/zsh-completion.js';
import { WRITING } from '../shared-flags.js';

const SHELLS = { bash: bashCompletion, zsh: zshCompletion, fish: fishCompletion } as const;

const isShell = (name: string): name is keyof typeof SHELLS => Object.hasOwn(SHELLS, name);

export const completion = command({
  name: 'completion',
  summary: 'completion of commands, options and files for bash, zsh and fish',
  operands: ['<SHELL>'],
  flags: { ...WRITING },
  about:
    'It prints a script for the shell. Load it from the file that the shell reads at its start, or save it where the shell looks for completions.',
  examples: [
    {
      line: 'thole completion bash > ~/.thole-completion',
      does: 'save it; then add: source ~/.thole-completion to ~/.bashrc',
    },
    {
      line: 'thole completion fish > ~/.config/fish/completions/thole.fish',
      does: 'save it where fish finds it',
    },
  ],
  run: async (session, options, [shell = '']) => {
    if (!isShell(shell))
      throw new UserError(
        `"${shell}" is no shell that completion is made for: choose ${Object.keys(SHELLS).join(', ')}`,
      );
    const { COMMANDS } = await import('./index.js');
    const commands = await Promise.all(Object.values(COMMANDS).map((load) => load()));
    const table = completionTable(commands, { schema: SCHEMA_NAMES, completion: Object.keys(SHELLS) });
    await session.emit(SHELLS[shell](table), options);
  },
});
