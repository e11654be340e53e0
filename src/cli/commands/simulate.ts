import { join } from 'node:path';
import { parseInputFile } from '../../contract/input-file.js';
import { scenario } from '../../contract/scenario.js';
import { inputText } from '../../host/input-text.js';
import { writeWholeBelow } from '../../host/write-whole.js';
import { simulatedFiles } from '../../simulate/index.js';
import { command } from '../command.js';
import { valueFlag } from '../flag.js';

export const simulate = command({
  name: 'simulate',
  summary: 'make an outing whose truth is known',
  operands: ['<SCENARIO>'],
  flags: {
    out: valueFlag(
      'FOLDER',
      'write into FOLDER, which is made if missing; default this folder',
      (text) => text,
    ),
  },
  about:
    'Reads a scenario in JSON (thole schema scenario) and writes NAME.gpx, NAME.imu.csv and NAME.truth.json, for the loggers that the scenario has. The same scenario gives the same bytes every time.',
  examples: [
    {
      line: 'thole simulate samples/outing/scenario.json --out made',
      does: 'make the sample outing again, in the folder made',
    },
  ],
  run: async (session, options, [path]) => {
    const out = options.out ?? '.';
    const asked = parseInputFile(scenario, await inputText(path!, 'scenario'), path!).value;
    const files = simulatedFiles(asked);
    for (const { name, text } of files) await writeWholeBelow(join(out, name), text);
    await session.emit(files.map(({ name }) => `${join(out, name)}\n`).join(''), { out: null });
  },
});
