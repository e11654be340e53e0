import { PALETTE } from '../drawing/palette.js';

const series = (colours: readonly string[]): string =>
  colours.map((colour, i) => `--c${i + 1}:${colour}`).join(';');

/** Five steps of one hue, from slow to fast: on a light page darker is faster, on a dark one lighter. */
const STEPS = Object.freeze({
  light: ['#8ab6d6', '#5f9ac6', '#3a7db3', '#1d5f99', '#0b3d70'],
  dark: ['#28587c', '#3a7aa6', '#5b9dc9', '#8dc1e4', '#cbe6fa'],
  print: ['#a8a8a8', '#858585', '#606060', '#3a3a3a', '#000000'],
});

const steps = (colours: readonly string[]): string =>
  colours.map((colour, i) => `--s${i + 1}:${colour}`).join(';');

const LIGHT = `--page:#fff;--text:#1a1a1a;--soft:#595959;--rule:#d9d9d9;--shade:#ececec;--ground:#fafafa;--edge:#767676;${series(PALETTE.light)};${steps(STEPS.light)}`;
const DARK = `--page:#161616;--text:#ececec;--soft:#b3b3b3;--rule:#3a3a3a;--shade:#2c2c2c;--ground:#1c1c1c;--edge:#8c8c8c;${series(PALETTE.dark)};${steps(STEPS.dark)}`;
const PRINT = `--page:#fff;--text:#000;--soft:#333;--rule:#ccc;--shade:#e6e6e6;--ground:#fff;--edge:#555;${series(PALETTE.light.map(() => '#000'))};${steps(STEPS.print)}`;

const themes = (root: string): string =>
  `${root}{color-scheme:light dark;${LIGHT}}@media screen and (prefers-color-scheme:dark){${root}{${DARK}}}@media print{${root}{${PRINT}}}`;

const lineClasses = PALETTE.dashes
  .map((dash, i) => `.c${i + 1}{--ink:var(--c${i + 1});--dash:${dash}}`)
  .join('');

const stepClasses = STEPS.light
  .map((_, i) => `.s${i + 1}{--ink:var(--s${i + 1});--wide:${2 + i}px}`)
  .join('');

/** How what stands in a picture looks; `root` is what carries the colours. */
const drawingStyle = (root: string): string =>
  `${themes(root)}
${lineClasses}${stepClasses}
text{font:12px system-ui,sans-serif;fill:var(--text)}
.tick,.heading{fill:var(--soft)}.heading{font-weight:600}
.ground{fill:var(--ground)}.shade{fill:var(--shade)}.grid{stroke:var(--rule);stroke-width:1}
.line{fill:none;stroke:var(--ink);stroke-dasharray:var(--dash);stroke-width:1.5;stroke-linejoin:round}
.line.bold{stroke-width:2.5}.line.thin{stroke-width:1}.line.plain{stroke-dasharray:none}
.line.faint{stroke:var(--edge);stroke-width:1;stroke-dasharray:none;opacity:.6}
.level{stroke:var(--ink);stroke-width:3}.band{fill:var(--ink);fill-opacity:.22}
.dot{fill:var(--ink);stroke:var(--page);stroke-width:.7}.dot.small{stroke:none;fill-opacity:.55}
.dot.open{fill:var(--page);stroke:var(--ink);stroke-width:1.8}
.whisker{stroke:var(--ink);stroke-width:1.4}
.mark{stroke:var(--edge);stroke-width:1.2;stroke-dasharray:4 3}.zero{stroke:var(--edge);stroke-width:1.2}
.bar{fill:var(--c1)}.asked{fill:var(--shade);stroke:var(--edge);stroke-width:1}
.way{fill:none;stroke:var(--ink);stroke-width:var(--wide);stroke-linecap:round;stroke-linejoin:round}
.step{fill:var(--ink);stroke:var(--page);stroke-width:.7}
.plate{fill:var(--page);stroke:var(--edge)}.needle{fill:var(--text)}`;

/** The style of a page. */
export const PAGE_STYLE = `${drawingStyle(':root')}
*{box-sizing:border-box}
html{background:var(--page);color:var(--text);font:16px/1.5 system-ui,sans-serif;-webkit-text-size-adjust:100%}
body{margin:0 auto;padding:16px;max-width:1000px}
h1{font-size:1.5rem;line-height:1.25;margin:.3em 0}h2{font-size:1.15rem;line-height:1.3;margin:2em 0 .4em}
p{margin:.5em 0;max-width:46em}p,h1,h2,li,caption,td,th,summary{overflow-wrap:anywhere}
.note,.about{color:var(--soft);font-size:.875rem}
.warnings{border:1px solid var(--edge);border-left-width:6px;padding:.4em 1em;margin:1em 0}
.warnings ul{padding-left:1.1em;margin:.3em 0}
figure{margin:0}figure svg{display:block;width:100%;height:auto;pointer-events:none}
.picture{position:relative}.narrow{display:none}
.tip{position:absolute;z-index:1;top:0;left:0;pointer-events:none;background:var(--page);color:var(--text);border:1px solid var(--edge);padding:3px 8px;font-size:.8125rem;line-height:1.4;white-space:pre;font-variant-numeric:tabular-nums}
.tip[hidden],.hair[hidden]{display:none}
.hair{position:absolute;width:0;border-left:1px solid var(--text);pointer-events:none}
.hair.spot{width:12px;height:12px;border:2px solid var(--text);border-radius:50%}
.scroll{overflow-x:auto}
table{border-collapse:collapse;font-size:.875rem;font-variant-numeric:tabular-nums;margin:.4em 0}
th,td{padding:3px 10px 3px 0;text-align:left;vertical-align:top;border-bottom:1px solid var(--rule);overflow-wrap:normal}
thead th{vertical-align:bottom;border-bottom-color:var(--edge);font-weight:600}
.n{text-align:right}td.n,.k{white-space:nowrap}
summary{cursor:pointer;color:var(--soft);font-size:.875rem}
@media screen and (max-width:600px){.wide{display:none!important}.narrow{display:block!important}body{padding:12px}}
@media print{@page{size:A4;margin:14mm}body{padding:0;max-width:none;font-size:10pt}figure,tr,h2{break-inside:avoid}h2{break-after:avoid}details,.tip,.hair{display:none!important}.scroll{overflow:visible}table{font-size:8.5pt}}`;

/** The style of a picture that stands alone in a file of its own. */
export const PICTURE_STYLE = `${drawingStyle('svg')}.sheet{fill:var(--page)}`;
