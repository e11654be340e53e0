import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeWhole } from '../../src/host/write-whole.js';
import { UserError } from '../../src/units/user-error.js';

const folder = () => mkdtempSync(join(tmpdir(), 'thole-'));

describe('a file written whole', () => {
  it('replaces what was there and leaves nothing beside it', async () => {
    const at = folder();
    writeFileSync(join(at, 'x'), 'old');
    await writeWhole(join(at, 'x'), 'new');
    expect(readFileSync(join(at, 'x'), 'utf8')).toBe('new');
    expect(readdirSync(at)).toEqual(['x']);
  });

  it('says on one line why it cannot be written', async () => {
    const at = folder();
    await expect(writeWhole(join(at, 'no', 'x'), 'new')).rejects.toThrow(UserError);
    await expect(writeWhole(join(at, 'no', 'x'), 'new')).rejects.toThrow(
      /cannot write .*there is no such file or folder$/,
    );
  });
});
