import type { Command } from '../command.js';

/** Every command, loaded when it is called, in the order of help. */
export const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  schema: async () => (await import('./schema.js')).schema,
};
