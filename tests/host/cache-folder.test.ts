import { describe, expect, it } from 'vitest';
import { cacheFolder } from '../../src/host/cache-folder.js';

describe('the cache folder', () => {
  it('lies where the XDG specification says', () => {
    expect(cacheFolder({ XDG_CACHE_HOME: '/c', HOME: '/h' }, null)).toBe('/c/thole');
    expect(cacheFolder({ XDG_CACHE_HOME: 'relative', HOME: '/h' }, null)).toBe('/h/.cache/thole');
    expect(cacheFolder({ HOME: '/h' }, '/given')).toBe('/given');
  });
});
