import { describe, expect, it } from 'vitest';
import { folderCraft } from '../../src/units/folder-craft.js';

describe('the craft in the name of a folder', () => {
  it.each([
    ['4x', '4x'],
    ['Heron 4x', '4x'],
    ['heron-8+', '8+'],
    ['2- juniors', '2-'],
    ['4+_masters', '4+'],
    ['k1', 'K1'],
    ['2026-05', null],
    ['group 4', null],
    ['14x', null],
  ])('%s: %s', (name, craft) => {
    expect(folderCraft(name)).toBe(craft);
  });
});
