import { describe, expect, it } from 'vitest';
import { withoutFolders } from '../../src/report/page/page-names.js';

describe('names of logs on a page', () => {
  const files = ['/home/kim/logs/a/outing.gpx', '/home/kim/logs/b/outing.gpx', 'C:\\logs\\watch.fit'];
  const result = {
    files,
    crew: 'Mere / Lake',
    heading: 'split /500 m',
    rows: [{ file: files[0], message: `read ${files[1]} twice; kept in /var/cache/thole/x.json` }],
  };
  const shown = withoutFolders(result, files);

  it('are as long as tells them apart, wherever they stand', () => {
    expect(shown.files).toEqual(['a/outing.gpx', 'b/outing.gpx', 'watch.fit']);
    expect(shown.rows[0]).toEqual({
      file: 'a/outing.gpx',
      message: 'read b/outing.gpx twice; kept in x.json',
    });
  });

  it('leave no folder of the machine, and other slashes alone', () => {
    expect(JSON.stringify(shown)).not.toMatch(/home|kim|var|cache/);
    expect([shown.crew, shown.heading]).toEqual(['Mere / Lake', 'split /500 m']);
  });
});
