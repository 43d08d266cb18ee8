"""The style sheet of the hand-off page: one type, hanging heads, hairlines; A4, Letter and a small phone."""

from __future__ import annotations

STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 60rem; padding: 1.6rem 1.2rem 3rem; background: #fff; color: #111;
  font: 1rem/1.42 Charter, "Bitstream Charter", "Iowan Old Style", Georgia, "Liberation Serif", serif;
  font-variant-numeric: lining-nums tabular-nums; overflow-wrap: break-word; }
h1 { font-size: 1.7rem; line-height: 1.15; font-weight: 600; margin: 0; }
h2 { font-size: .95rem; line-height: 1.35; font-weight: 600; margin: 0; }
h3 { font-size: 1.02rem; line-height: 1.3; font-weight: 600; margin: 0; }
p, ul, ol, dl, table { margin: 0; }
small, .faint { font-size: .86em; color: #444; line-height: 1.3; }
header { border-bottom: 1.5pt solid #111; padding-bottom: .7rem; }
header p { margin-top: .2rem; }
section { display: grid; grid-template-columns: 8.2rem minmax(0, 1fr); column-gap: 1.2rem; padding: .75rem 0;
  border-bottom: .5pt solid #999; }
section > * { min-width: 0; }
.lead { font-size: 1.08rem; }
.system { font-style: italic; margin: .55rem 0 .15rem; }
.system:first-child { margin-top: 0; }
.entry { margin: 0 0 .7rem; break-inside: avoid; }
.entry:last-child { margin-bottom: 0; }
.judged { font-style: normal; }
.code { white-space: nowrap; }
ul.why { padding-left: 1.1em; }
ul.why li { margin: .06rem 0; }
ul { list-style: "\\2013\\2002"; }
ul.plain, ol.plain { padding-left: 1.25em; }
.signs { margin: .1rem 0; }
.sign { white-space: nowrap; margin-right: 1.1em; }
.mark { width: .82em; height: .82em; vertical-align: -.08em; }
table { border-collapse: collapse; width: 100%; }
th { text-align: left; font-weight: 600; }
th, td { vertical-align: top; padding: .16rem .8rem .16rem 0; border-bottom: .5pt solid #ccc; }
tr:last-child > th, tr:last-child > td { border-bottom: 0; }
th:last-child, td:last-child { padding-right: 0; }
thead th { font-weight: 400; font-size: .84em; color: #4d4d4d; }
tr { break-inside: avoid; }
td.figure, th.figure { text-align: right; white-space: nowrap; }
td.tight, th.tight { white-space: nowrap; width: 1%; }
td.sight { white-space: nowrap; width: 1%; padding-right: .7rem; }
td.stacked { text-align: center; line-height: 1.15; padding-right: .5rem; }
td.stacked small { display: block; }
.step { margin: .8rem 0 .15rem; font-weight: 600; break-after: avoid; }
.step:first-child { margin-top: 0; }
.shared { font-size: .84em; color: #333; margin-top: .25rem; }
.count { font-weight: 600; }
.checks > li { margin-bottom: .5rem; break-inside: avoid; }
.checks p { font-size: .93em; }
.checks em { color: #4d4d4d; }
.close th, .close td { border-bottom: 0; padding-top: .04rem; padding-bottom: .04rem; }
.drawing { overflow-x: auto; padding: .9rem 0; }
.drawing svg { display: block; width: 100%; min-width: 44rem; height: auto; }
.behind { margin-top: 1.1rem; break-after: avoid; }
.sums { margin-top: 1.6rem; border-top: 1.5pt solid #111; padding-top: .8rem; }
.sums h2 { font-size: 1.2rem; }
.ledgers { columns: 2; column-gap: 2.2rem; margin-top: .7rem; }
.ledger { break-inside: avoid; margin-bottom: .9rem; }
.ledger td { padding: .05rem .6rem .05rem 0; font-size: .88em; }
.ledger td.figure { width: 3.6em; }
.ledger tr.total td { border-top: .8pt solid #111; font-weight: 600; }
ul.each { list-style: none; padding: 0; columns: 2; column-gap: 2.2rem; font-size: .88em; }
.each li { display: flex; flex-wrap: wrap; justify-content: flex-end; column-gap: .5rem; break-inside: avoid;
  border-bottom: .5pt solid #ccc; }
.each .name { margin-right: auto; }
.each .total { font-weight: 600; }
pre { font-size: .8em; line-height: 1.3; white-space: pre-wrap; margin: .15rem 0 .4rem; }
@media (max-width: 44rem) {
  body { padding: 1rem .9rem 2rem; }
  section { display: block; }
  section > h2 { margin-bottom: .3rem; border-bottom: 0; }
  .ledgers, ul.each { columns: 1; }
  table.stack, table.stack tbody, table.stack tr, table.stack th, table.stack td { display: block; width: auto; }
  table.stack thead { display: none; }
  table.stack tr { padding: .25rem 0; border-bottom: .5pt solid #ccc; }
  table.stack tr:last-child { border-bottom: 0; }
  table.stack th, table.stack td { border-bottom: 0; padding: 0; white-space: normal; text-align: left; }
  table.stack td.sight { display: inline-block; margin-right: 1em; padding: .1rem 0; }
  table.stack td.sight small { display: inline; }
  table.close tr > * { display: inline !important; margin-right: .55em; }
}
@page { margin: 13mm 14mm 15mm;
  @bottom-right { content: counter(page) " / " counter(pages); font: 7.5pt Georgia, "Liberation Serif", serif; } }
@media print {
  html { font-size: 8.2pt; }
  body { line-height: 1.34; }
  body { max-width: none; padding: 0; }
  section { padding: .38rem 0; grid-template-columns: 6.6rem minmax(0, 1fr); column-gap: .9rem; }
  .drawing { overflow: visible; break-inside: avoid; padding: .4rem 0; }
  .drawing svg { min-width: 0; }
  .behind { margin-top: .7rem; }
  .sums { break-before: page; margin-top: 0; border-top: 0; padding-top: 0; }
  .lead { font-size: 1.04rem; }
  .entry { margin-bottom: .4rem; }
  th, td { padding-top: .1rem; padding-bottom: .1rem; }
  .step { margin-top: .45rem; }
  .checks > li { margin-bottom: .22rem; }
  a { color: inherit; text-decoration: none; }
}
"""

__all__ = ["STYLE"]
