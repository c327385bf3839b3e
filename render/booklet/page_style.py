"""How the booklet's web page looks: ink on paper, thin rules, as our tickets.

Widths in rem, millimetres in print. Imports nothing.
"""

_STACKED = """
  .many thead { position: absolute; width: 1px; height: 1px; overflow: hidden;
    clip-path: inset(50%); }
  .many, .many thead, .many tbody, .many tr, .many th, .many caption { display: block; }
  .many tr { padding: .4em 0; }
  .many tbody th { font-weight: 600; padding: 0; text-align: left; }
  .many td, .many td.figures { display: flex; justify-content: space-between; gap: 1rem;
    padding: .1em 0; text-align: right; }
  .many td::before { content: attr(data-head); text-align: left; flex: none; max-width: 45%;
    overflow-wrap: break-word; }
"""
"""A table told row by row, each cell after its head."""

_STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { font: 100%/1.5 "Fira Sans", "Segoe UI", "Noto Sans", Arial, sans-serif; }
body { margin: 0; background: #fff; color: #111; overflow-wrap: break-word; }
header, nav, main, footer { max-width: 44rem; margin: 0 auto; padding: 0 1rem; }
h1, h2, h3, h4, h5, h6 { line-height: 1.25; margin: 1.6em 0 .5em; text-wrap: balance; }
h1 { font-size: 2rem; margin: 2.5rem 0 .2rem; }
h2 { font-size: 1.45rem; }
h3 { font-size: 1.15rem; }
h4, h5, h6 { font-size: 1rem; }
p, ul, ol { margin: .5em 0; }
a { color: inherit; text-decoration-thickness: 1px; text-underline-offset: .2em; }
a:focus-visible, [tabindex]:focus-visible { outline: 3px solid #111; outline-offset: 2px; }
.subtitle { font-size: 1.15rem; margin: 0 0 1rem; }
.facts { list-style: none; padding: 0; margin: 0 0 1.5rem; border-top: 3px solid #111; }
.facts li { padding: .35em 0; border-bottom: 1px solid #111; }
.part { position: relative; border-top: 1px solid #111; margin-top: 2.8rem; }
.part::before { content: ""; position: absolute; top: -6px; left: 0; width: 14px; height: 11px;
  border: solid #111; border-width: 0 2px; }
.part > h2:first-child { margin-top: .9rem; }
nav ol { list-style: none; padding: 0; }
nav ol ol { padding-left: 1.5rem; margin: 0; }
nav > ol > li { border-bottom: 1px solid #111; }
nav a { display: block; padding: .25em 0; text-decoration: none; }
nav > ol > li > a { font-weight: 600; }
nav a:hover { text-decoration: underline; }
.numbered { padding-left: 1.9em; }
.number { float: left; margin-left: -1.9em; }
.steps { padding-left: 2.2rem; }
.steps > li::marker { font-weight: 600; font-size: 1.15rem; }
.steps > li { padding-left: .2rem; margin-bottom: 2rem; }
.steps > li > :is(h3, h4, h5, h6) { font-size: 1.15rem; margin: 0; }
.time { font-size: .9rem; margin: .1rem 0 .5rem; }
.care { border: 2px solid #111; padding: .5rem .9rem; margin: 1rem 0; }
.care p { margin: 0; }
.care ul, main ul { padding-left: 1.3rem; }
main ul > li::marker { content: "\\2013\\00a0\\00a0"; }
.check { position: relative; padding-left: 1.7rem; }
.check::before { content: ""; position: absolute; left: 0; top: .25em; width: 1rem; height: 1rem;
  border: 1.5px solid #111; }
figure { margin: 1.5rem 0; }
figcaption { font-size: .95rem; margin-top: .4rem; }
/* A picture too wide for the window slides; the shadow at an edge tells that there is more. */
.across { overflow-x: auto; background:
  linear-gradient(to right, #fff 40%, #fff0) local,
  linear-gradient(to left, #fff 40%, #fff0) 100% 0 local,
  linear-gradient(to right, #0008, #0000),
  linear-gradient(to left, #0008, #0000) 100% 0;
  background-size: 2.5rem 100%, 2.5rem 100%, .75rem 100%, .75rem 100%;
  background-repeat: no-repeat; }
svg { display: block; width: calc(var(--wide) * 1.35); max-width: 100%; height: auto;
  overflow: visible; }
svg text { font-family: "Fira Sans", "Segoe UI", "Noto Sans", "Helvetica Neue", Arial, sans-serif; }
.large { min-width: var(--least); }
table { border-collapse: collapse; width: 100%; margin: 1.2rem 0; font-size: .95rem;
  font-variant-numeric: tabular-nums; border-top: 2px solid #111; }
caption { text-align: left; font-weight: 600; padding-bottom: .4rem; }
thead th { border-bottom: 2px solid #111; }
th, td { text-align: left; vertical-align: top; padding: .35em .8em .35em 0; }
tbody th { font-weight: 400; }
.crowd th, .crowd td { padding-right: .5em; }
.tight th, .tight td { overflow-wrap: anywhere; }
tbody tr { border-bottom: 1px solid #111; }
th.figures, td.figures { text-align: right; padding-right: 1.6em; }
.figures:last-child { padding-right: 0; }
footer { margin-top: 3rem; padding-bottom: 2rem; font-size: .9rem; }
footer p { border-top: 1px solid #111; padding-top: .6rem; }
@media screen and (max-width: 34rem) {
  header, nav, main, footer { padding: 0 .75rem; }
  h1 { font-size: 1.6rem; }
  .steps { padding-left: 1.6rem; }
  .steps figure { margin-left: -1.8rem; }
}
@media screen and (max-width: 34rem) { MANY }
@media screen and (max-width: 48rem) { CROWD }
@media screen and (min-width: 48rem) { svg { overflow: visible; } }
@media print {
  @page { margin: 18mm 16mm; }
  html { font-size: 10.5pt; }
  header, nav, main, footer { max-width: none; padding: 0; }
  h1, h2, h3, h4, h5, h6, caption { break-after: avoid; }
  .time { break-after: avoid; }
  .check { break-before: avoid; }
  figure, .care, .check, tr { break-inside: avoid; }
  p, li { orphans: 2; widows: 2; }
  .across { overflow: visible; background: none; }
  svg, .large { min-width: 0; width: var(--wide); max-width: 100%; }
  nav { break-after: page; }
}
"""

STYLE = _STYLE.replace("MANY", _STACKED).replace("CROWD", _STACKED.replace(".many", ".crowd"))
