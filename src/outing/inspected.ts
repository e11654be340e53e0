import type { InspectResult } from '../contract/inspect.js';
import { inspectResultOf, quickLookResultOf } from './inspection.js';
import type { JoinedOuting } from './joined-outing.js';
import { wholeOuting } from './open-outing.js';

/** `thole inspect` of one outing, all of which is looked at. */
export const inspectedWhole = (joined: JoinedOuting): InspectResult => inspectResultOf(wholeOuting(joined));

/** `thole inspect` of one outing; a long one is looked at here and there, where that is enough. */
export const inspected = (joined: JoinedOuting): InspectResult =>
  quickLookResultOf(joined) ?? inspectedWhole(joined);
