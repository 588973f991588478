package paper

// style is the look of a printed sheet: much white, quiet type, no frames but the boxes to tick, and the edge of the cloth
// down the left of the page. EDGE is its colour. In black and white the edge turns grey and nothing is lost.
const style = `@page { size: auto; margin: 12mm 12mm 12mm 0; }
* { box-sizing: border-box; }
html { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
body { margin: 0; background: #fff; color: #111; font: 10.5pt/1.35 "Helvetica Neue", Helvetica, Arial, "Liberation Sans", sans-serif;
  font-variant-numeric: tabular-nums; }
.edge { position: fixed; left: 0; top: 0; bottom: 0; width: 6mm; background: EDGE; }
main { max-width: 200mm; padding: 10mm 10mm 10mm 17mm; }
h1 { font-size: 22pt; line-height: 1.1; font-weight: 600; margin: 0; }
h2 { font-size: 11pt; font-weight: 600; margin: 5mm 0 1.5mm; break-after: avoid; }
p { margin: 0 0 1mm; }
.under { color: #444; margin: 1mm 0 4mm; }
.foot { color: #444; font-size: 8.5pt; margin-top: 6mm; }
dl { margin: 0 0 2mm; columns: 2; column-gap: 8mm; }
dl div { display: flex; gap: 3mm; break-inside: avoid; padding: 0.4mm 0; }
dt { flex: 0 0 30mm; color: #444; }
dd { flex: 1; margin: 0; }
table { border-collapse: collapse; width: 100%; }
table.short { width: auto; }
.short td, .short th { padding-right: 8mm; }
table + p, .times + p { margin-top: 1.5mm; }
.dense { font-size: 8.5pt; line-height: 1.25; }
.dense th { font-size: 8pt; }
.dense th, .dense td { padding: 0.4mm 3mm 0.4mm 0; }
.dense td .swatch { width: 3.4mm; height: 3.4mm; }
th { text-align: left; font-weight: 400; color: #444; font-size: 9pt; vertical-align: bottom; }
th, td { padding: 0.6mm 4mm 0.6mm 0; }
td { vertical-align: top; }
th:last-child, td:last-child { padding-right: 0; }
.figures { text-align: right; }
.figures, .whole { white-space: nowrap; }
td .swatch { width: 4mm; height: 4mm; vertical-align: -0.8mm; }
tr, li { break-inside: avoid; }
ul { list-style: none; margin: 0; padding: 0; }
.swatch { display: inline-block; width: 5mm; height: 5mm; vertical-align: -1.2mm; outline: 0.2mm solid #111; outline-offset: -0.2mm;
  -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.row { display: flex; flex-wrap: wrap; gap: 1mm 8mm; }
.box { display: inline-block; width: 3.6mm; height: 3.6mm; border: 0.25mm solid #111; vertical-align: -0.5mm; margin-right: 1.2mm; line-height: 3.2mm;
  text-align: center; font-size: 10pt; }
.write { display: inline-block; min-width: 16mm; height: 1em; border-bottom: 0.25mm dotted #555; }
.long { width: 100%; }
.ticks li { display: flex; align-items: flex-start; padding: 1mm 0; }
.ticks li > .box { flex: none; margin: 0.7mm 2.5mm 0 0; }
.ticks li > div { flex: 1; }
.ticks li > .rooms { flex: 0 0 33mm; padding-left: 4mm; text-align: right; color: #444; font-size: 9pt; }
.ticks p { margin: 0.3mm 0 0; font-size: 9.5pt; }
.ticks.dense li { padding: 0.4mm 0; }
.ticks.dense p { font-size: 8pt; }
.ticks.dense li > .rooms { flex-basis: 58mm; font-size: 8pt; }
.ticks.dense .write { min-width: 13mm; }
.rooms > span { white-space: nowrap; }
.figure { font-weight: 600; padding-left: 2mm; }
.no { color: #444; }
.caution strong { background: #111; color: #fff; font-size: 8pt; padding: 0 1.2mm; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.caution { font-size: 9.5pt; }
.times { columns: 3; column-gap: 8mm; font-size: 9.5pt; }
.span { display: inline-block; min-width: 24mm; color: #444; }
.note { color: #444; }
.tags { display: grid; grid-template-columns: 1fr 1fr; }
.tags li { padding: 5mm 5mm 5mm 0; border-bottom: 0.25mm dashed #888; }
.tag { font-size: 30pt; line-height: 1.1; font-weight: 600; }
.slips > li { padding: 5mm 0; border-bottom: 0.25mm dashed #888; }
.slips .whose { font-size: 18pt; line-height: 1.1; font-weight: 600; }
.slips .whose .write { min-width: 60mm; }
.slips .of { font-weight: 600; margin-top: 2mm; }
.plot { display: block; width: 100%; height: auto; margin-bottom: 1mm; break-inside: avoid; }
.plot text { font-size: 10.5px; fill: #111; }
.plot .quiet { fill: #444; font-size: 9.5px; }
.plot .name { font-weight: 600; }
.cards { display: grid; grid-template-columns: repeat(3, 1fr); margin-top: 3mm; padding-right: 0.2mm; }
.cards li { outline: 0.25mm dashed #888; outline-offset: -0.125mm; padding: 2.2mm 3mm; font-size: 7pt; line-height: 1.28; }
.cards .made { font-weight: 600; font-size: 7.5pt; min-height: 7mm; }
.cards .tag { float: left; font-size: 17pt; padding-right: 2mm; }
.cards .swatch { width: 12mm; height: 3mm; vertical-align: -0.6mm; }
@media print {
  body { font-size: 9.5pt; line-height: 1.3; }
  main { max-width: none; padding: 0 0 0 15mm; }
  .dense { font-size: 8pt; }
  .new { break-before: page; }
}
@media screen and (max-width: 160mm) { .figures, .whole { white-space: normal; } section { overflow-x: auto; } .plot { min-width: 150mm; } main { padding: 5mm 4mm 5mm 10mm; } .edge { width: 4mm; } dl, .times { columns: 1; } .ticks li { flex-wrap: wrap; } .tags, .cards { grid-template-columns: 1fr; } }
`
