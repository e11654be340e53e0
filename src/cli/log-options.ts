import type { ClubDefaults } from './club-defaults.js';
import type { OptionsOf } from './flag.js';
import type { LOGS } from './shared-flags.js';

/** What the user gave about the logs: the shared options. */
export type LogOptions = Omit<OptionsOf<typeof LOGS>, 'join'> &
  Partial<Pick<OptionsOf<typeof LOGS>, 'join'>> & { readonly club?: Pick<ClubDefaults, 'usual'> | null };
