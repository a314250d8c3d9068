/** The look of the report: light and dark as the reader has it, black on white on paper. */
export const REPORT_STYLE = `
:root { color-scheme: light dark; --ink: #1c1917; --paper: #fffdf8; --quiet: #4b4741; --rule: #cfc8bb; --band: #f3ede1; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #f1ece2; --paper: #1b1a18; --quiet: #b9b2a6; --rule: #4b4640; --band: #272522; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1.5rem; max-width: 72rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 system-ui, "Helvetica Neue", Arial, sans-serif; overflow-wrap: anywhere; }
h1 { margin: 0; font-size: 1.9rem; line-height: 1.2; }
h2 { margin: 2.5rem 0 .5rem; padding-top: .5rem; border-top: 2px solid var(--ink); font-size: 1.3rem; }
h3 { margin: 1.5rem 0 .25rem; font-size: 1.05rem; }
section.summary p { margin: .75rem 0 0; }
header p, figcaption, caption { color: var(--quiet); }
section.stop { margin-bottom: 1.5rem; padding: .5rem 1rem; border: 6px double var(--ink); background: var(--band); }
section.unfinished { margin-bottom: 1.5rem; padding: .5rem 1rem; border: 2px solid var(--ink); background: var(--band); }
section.unfinished h2 { margin: 0; padding: 0; border: 0; }
section.stop h2 { margin: 0; padding: 0; border: 0; font-size: 1.6rem; }
dl { display: grid; grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr)); gap: 1rem; margin: 1.25rem 0 0; }
dl div { padding: .6rem .8rem; background: var(--band); border-left: 4px solid var(--rule); }
dt { color: var(--quiet); font-size: .9rem; }
dd { margin: 0; font-size: 1.35rem; font-variant-numeric: tabular-nums; }
dd.aside { color: var(--quiet); font-size: .85rem; }
table { width: 100%; border-collapse: collapse; overflow-wrap: break-word; font-variant-numeric: tabular-nums; }
caption { padding: .25rem 0; text-align: left; }
th, td { padding: .3rem .6rem; border-bottom: 1px solid var(--rule); text-align: right; vertical-align: top; }
td.words, th.words { text-align: left; }
td:not(.words) { white-space: nowrap; }
thead th { border-bottom: 2px solid var(--ink); font-size: .9rem; }
tbody th { font-weight: 600; }
tfoot th, tfoot td { border-bottom: 0; border-top: 2px solid var(--ink); font-weight: 600; }
.wide { overflow-x: auto; }
/* A table that scrolls has its caption whole at its left: it is read before anything is moved. */
@media screen { caption { max-width: calc(100vw - 3rem); } }
/* On a phone tables scroll anyway; on a tablet they fit, and room kept for words would have them scroll too. */
@media screen and (max-width: 40rem) { .sentences { min-width: 13rem; } }
figure { margin: .5rem 0 1rem; }
figure svg { display: block; width: 100%; height: auto; max-height: 70vh; padding: .5rem; background: #fff;
  border: 1px solid var(--rule); }
li { margin: .25rem 0; }
ul.woods { display: flex; flex-wrap: wrap; gap: .25rem 1.5rem; padding: 0; list-style: none; }
ul.woods svg { width: 2.6em; height: auto; vertical-align: middle; background: #fff; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --quiet: #333; --rule: #999; --band: #fff; }
  body { max-width: none; padding: 0; font-size: 10pt; }
  /* Paper does not scroll, and sums stand once, below the last page of a table. */
  .wide { overflow: visible; }
  tfoot { display: table-row-group; }
  figure, tr, dl div, li, caption { break-inside: avoid; }
  h2, h3, caption, thead { break-after: avoid; }
  /* What leads to a table, a list or a picture is read with it: a heading that takes only its sentence along stays behind. */
  h2 + p, h3 + p { break-inside: avoid; break-after: avoid; }
  p:has(+ .wide), p:has(+ figure), p:has(+ ul), p:has(+ ol) { break-inside: avoid; break-after: avoid; }
  /* A head alone at the foot of a page heads nothing. */
  tbody tr:first-child { break-before: avoid; }
}
`;
