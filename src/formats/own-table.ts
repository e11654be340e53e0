/** Headings of tables that this program writes or takes beside logs, and that no log has. */
const OWN_HEADINGS: ReadonlySet<string> = new Set(
  `file crew craft seats placement wind notes event track crew_number place outcome boat piece stroke week month
  at_s duration_s rowing_s distance_per_stroke_m cumulative_m stroke_count share_pct speed_variation split_s_per_500m
  extra_drag_power_pct rule passed from_spm to_spm asked_s asked_m step kind target_s category opening swap`.split(
    /\s+/,
  ),
);
/** Headings that make a table a log whatever else it has. */
const LOG_HEADING = /^"?(?:lat|lon|latitude|longitude|a[xyz]|acc)/;

const LONGEST_HEADING = 4096;

/**
 * Whether bytes are a file of ours and no log: a result as CSV, TSV or JSON, an outing sheet, entries or a plan. It may
 * stand among logs where a shell named them by a pattern.
 */
export const isOwnTable = (bytes: Uint8Array): boolean => {
  const text = new TextDecoder().decode(bytes.subarray(0, LONGEST_HEADING)).replace(/^\uFEFF/, '');
  if (/^\s*\{\s*"schema"\s*:\s*"thole\//.test(text)) return true;
  const names = (/^[^\r\n]*/.exec(text)?.[0] ?? '')
    .split(/[,;\t]/)
    .map((name) => name.trim().toLowerCase().replace(/^"|"$/g, ''));
  return (
    names.filter((name) => OWN_HEADINGS.has(name)).length >= 2 &&
    !names.some((name) => LOG_HEADING.test(name))
  );
};
