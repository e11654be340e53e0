import type { Command } from '../command.js';

/** Every command, loaded when it is called, in the order of help. */
export const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  simulate: async () => (await import('./simulate.js')).simulate,
  schema: async () => (await import('./schema.js')).schema,
};
