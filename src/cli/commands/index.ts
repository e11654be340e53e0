import type { Command } from '../command.js';

/** Every command, loaded when it is called, in the order of help. */
export const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  inspect: async () => (await import('./inspect.js')).inspect,
  outing: async () => (await import('./outing.js')).outing,
  strokes: async () => (await import('./strokes.js')).strokes,
  pieces: async () => (await import('./pieces.js')).pieces,
  regatta: async () => (await import('./regatta.js')).regatta,
  workout: async () => (await import('./workout.js')).workout,
  curve: async () => (await import('./curve.js')).curve,
  seats: async () => (await import('./seats.js')).seats,
  pace: async () => (await import('./pace.js')).pace,
  season: async () => (await import('./season.js')).season,
  check: async () => (await import('./check.js')).check,
  gauge: async () => (await import('./gauge.js')).gauge,
  simulate: async () => (await import('./simulate.js')).simulate,
  schema: async () => (await import('./schema.js')).schema,
  completion: async () => (await import('./completion.js')).completion,
};
