#include "sheet/html.h"

namespace tacksquare {

namespace {

// Black on white, readable at arm's length; paper first, then narrow screens. No "<" and no "&": the page is
// XML too.
constexpr std::string_view kStyle = R"css(
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: #fff; color: #000; font: 12pt/1.25 "Liberation Sans", Arial, "Nimbus Sans", "DejaVu Sans", sans-serif;
  overflow-wrap: break-word; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
main { max-width: 200mm; margin: 0 auto; padding: 4mm; }
h1, h2, h3, h4, p, ul, ol, figure { margin: 0; padding: 0; }
ul { list-style: none; }
.pages { width: 100%; border-collapse: collapse; table-layout: fixed; }
.pages > thead > tr > td, .pages > tbody > tr > td { padding: 0; }
.running { overflow-wrap: anywhere; display: flex; gap: 4mm; justify-content: space-between; border-bottom: 0.5mm solid #000;
  margin-bottom: 1.5mm; padding-bottom: 0.6mm; font-size: 9.5pt; }
.running b { font-size: 10.5pt; }
.running .sign { font-family: "DejaVu Sans Mono", monospace; white-space: nowrap; }
.long, h1, li, .what, .note { overflow-wrap: anywhere; }
.title { display: flex; flex-wrap: wrap; gap: 0 5mm; align-items: baseline; margin-bottom: 1.5mm; }
h1 { font-size: 20pt; line-height: 1.1; }
.headline { font-size: 11pt; }
.red { border: 1.2mm solid #000; outline: 0.6mm solid #b00000; outline-offset: -0.9mm; padding: 2.5mm 3mm; margin: 0 0 3mm; font-weight: bold; break-inside: avoid; }
.red h2 { background: #b00000; color: #fff; font-size: 15pt; padding: 1mm 2mm; margin-bottom: 1mm; }
.top { display: grid; grid-template-columns: 1fr auto; gap: 4mm; align-items: start; }
.facts li { padding: 0.5mm 0; border-bottom: 0.15mm solid #999; }
.settings { border: 0.7mm solid #000; margin: 2.5mm 0 0; padding: 0 3mm 1.5mm; break-inside: avoid; }
.settings h2 { display: inline-block; background: #000; color: #fff; font-size: 12pt; margin: 0 0 1mm -3mm; padding: 0.6mm 3mm; }
.settings h3 { font-size: 11pt; margin-top: 1mm; }
.settings .run-on { font-size: 12.5pt; font-weight: bold; }
.run-on, .run-on li { display: inline; }
.run-on li:not(:last-child)::after { content: ";"; }
.before { font-size: 11pt; margin: 2mm 0 3mm; }
.block { border-top: 0.15mm solid #888; padding: 0.6mm 0; break-inside: avoid; }
.before h2 { display: inline; font-size: 11pt; margin-right: 2mm; }
.block .lines li { padding-left: 4mm; text-indent: -4mm; }
.block .lines li::before { content: "\2022"; display: inline-block; width: 4mm; text-indent: 0; }
.drawings { display: flex; flex-wrap: wrap; gap: 1mm; justify-content: space-around; align-items: end; margin: 2mm 0; }
.many { display: grid; grid-template-columns: auto auto; align-items: center; }
.many figure:first-child { grid-row: 1 / span 9; }
figure { display: table; break-inside: avoid; max-width: 100%; }
figcaption { display: table-caption; caption-side: bottom; font-size: 9.5pt; font-weight: bold; text-align: center; }
svg { display: block; max-width: 100%; height: auto; margin: 0 auto; }
svg text { font-family: "Liberation Sans", Arial, "Nimbus Sans", "DejaVu Sans", sans-serif; paint-order: stroke; stroke: #fff; stroke-width: 0.7px; stroke-linejoin: round; }
svg .outline { stroke: #000; stroke-width: 0.35px; fill: none; }
svg .hidden { stroke: #555; stroke-width: 0.25px; stroke-dasharray: 1.4 1; fill: none; }
svg .seam { stroke: #000; stroke-width: 1.1px; fill: none; stroke-linecap: round; }
svg .seam_hidden { stroke: #000; stroke-width: 0.9px; stroke-dasharray: 2 1.3; fill: none; }
svg .tack { stroke: #000; stroke-width: 0.5px; }
svg .run { stroke: #000; stroke-width: 0.4px; fill: none; }
svg .dimension { stroke: #444; stroke-width: 0.18px; fill: none; }
svg .bar { fill: #666; stroke: none; }
svg .bar_open { fill: #e4e4e4; stroke: #000; stroke-width: 0.2px; }
svg .head { stroke: none; fill: #000; }
.legend { font-weight: bold; margin: 2mm 0 0.6mm; }
.defer { font-size: 10pt; margin-bottom: 0.4mm; }
.bench .legend, .bench .defer { display: inline; font-size: 10pt; }
.phase h2 { font-size: 11.5pt; border-top: 0.8mm solid #000; padding-top: 0.4mm; margin-top: 1.5mm; break-after: avoid; letter-spacing: 0.04em; }
.step { display: grid; grid-template-columns: minmax(8.5mm, auto) 8mm 1fr auto 7mm; gap: 0 2mm; padding: 0.5mm 0; border-bottom: 0.15mm solid #888; break-inside: avoid; }
.split { break-inside: auto; }
.split .check { break-inside: avoid; }
.split h3, .split .body { break-after: avoid; }
.number { font-size: 16pt; font-weight: bold; text-align: right; line-height: 1; }
.who { font-size: 13pt; font-weight: bold; text-align: center; border: 0.4mm solid #000; border-radius: 1.5mm; height: 6.2mm; line-height: 5.4mm; }
.who.welder { background: #000; color: #fff; }
.who.both { background: #d8d8d8; }
.who.foreman { border-style: double; border-width: 0.9mm; line-height: 4.4mm; }
.what { font-size: 12pt; }
.checks { grid-column: 2 / -1; }
.note { font-size: 10.5pt; }
.record { font-size: 12pt; margin-top: 1mm; }
.other { font-size: 10.5pt; font-style: italic; border-left: 0.6mm solid #888; padding-left: 2mm; margin-top: 0.5mm; }
.time { white-space: nowrap; font-size: 12pt; }
input[type=checkbox] { appearance: none; -webkit-appearance: none; width: 6.2mm; height: 6.2mm; margin: 0; border: 0.5mm solid #000; border-radius: 0; background: #fff; display: block; }
input[type=checkbox]:checked { background: linear-gradient(45deg, transparent 46%, #000 46%, #000 54%, transparent 54%), linear-gradient(-45deg, transparent 46%, #000 46%, #000 54%, transparent 54%); }
.check { border-left: 1.2mm solid #000; padding: 0 0 0 2mm; margin-top: 0.4mm; font-size: 11pt; }
.check .go { font-weight: bold; font-size: 12pt; }
.blank { display: inline-block; width: 11mm; height: 4.2mm; border-bottom: 0.3mm solid #000; }
.read { display: inline-block; margin-right: 1.5mm; }
.off { font-size: 10.5pt; }
.hold { border: 1.2mm solid #000; padding: 0 2mm; margin-top: 2mm; break-inside: avoid; }
.hold h3 { background: #000; color: #fff; font-size: 13pt; margin: 0 -2mm; padding: 0.5mm 3mm; }
.hold.split { break-inside: auto; }
.hold .step { border-bottom: 0; }
.names { break-before: avoid; display: flex; flex-wrap: wrap; gap: 3mm 8mm; padding: 1.5mm 0 1.5mm 20mm; font-size: 12pt; }
.names span span, .signoff span span { display: inline-block; width: 42mm; border-bottom: 0.3mm solid #000; margin-left: 2mm; }
.stop { text-align: center; font-weight: bold; font-size: 12pt; letter-spacing: 0.08em; border: 0.3mm dashed #000; padding: 0.4mm; margin: 1mm 30mm; break-before: avoid; break-inside: avoid; }
.signoff { display: grid; grid-template-columns: 1fr 1fr; gap: 4mm 6mm; margin-top: 4mm; break-inside: avoid; }
.signoff > :first-child { grid-column: 1 / -1; }
.signoff span { display: flex; align-items: end; }
.signoff span span { flex: 1; min-width: 20mm; }
.foreman { font-size: 10pt; }
.foreman h1 { font-size: 18pt; }
.foreman h2, .map h2 { font-size: 11.5pt; margin-top: 3mm; break-after: avoid; }
.foreman .block h2 { font-size: 10.5pt; margin: 0; }
table.data { border-collapse: collapse; min-width: 60%; max-width: 100%; font-size: 9.5pt; margin-top: 1mm; }
.map table.data { font-size: 10.5pt; }
table.data th { text-align: left; vertical-align: bottom; border-bottom: 0.4mm solid #000; padding: 0.4mm 1.2mm; }
table.data td { vertical-align: top; border-bottom: 0.1mm solid #aaa; padding: 0.3mm 1.2mm; }
table.data .n { text-align: right; }
table.data .short { white-space: nowrap; }
.slim { columns: 80mm; column-gap: 8mm; break-inside: avoid; }
.slim table.data th, .slim table.data td { padding-left: 0.7mm; padding-right: 0.7mm; }
.slim.narrow { columns: 50mm; }
.slim table.data { width: 100%; }
table.data tr { break-inside: avoid; }
table.data .sum td { border-top: 0.35mm solid #000; font-weight: bold; }
.large { margin: 1mm 0 2mm; padding: 1mm 3mm; border: 0.7mm solid #000; }
.large p { font-size: 14pt; line-height: 1.3; }
.large p:first-child { font-size: 18pt; font-weight: bold; }
.card h2 { font-size: 12pt; margin-top: 2.5mm; break-after: avoid; }
.card table.data { font-size: 9.5pt; line-height: 1.15; width: 100%; }
.card table.data td { padding: 0.2mm 1.2mm; }
.card .few table.data { width: auto; min-width: 45%; }
.card .big table.data { font-size: 12pt; }
.card .big table.data td { white-space: nowrap; padding: 0.9mm 1.2mm; border-bottom: 0.3mm solid #000; }
.card .big table.data td:first-child { font-size: 18pt; font-weight: bold; line-height: 1; }
.card .block { font-size: 11pt; }
.card .block h2 { margin: 0; }
.below { font-size: 9.5pt; padding-top: 0.8mm; }
@page { margin: 9mm 10mm 10mm; @bottom-right { content: "PAGEWORD " counter(page) " / " counter(pages); font: 9pt sans-serif; } }
@media print {
  main { max-width: none; padding: 0; }
  .part { break-before: page; }
  .part:first-child { break-before: auto; }
}
@media screen {
  .part { margin-bottom: 15mm; }
}
@media screen and (max-width: 700px) {
  main { padding: 2mm; }
  .top, .signoff, .many { grid-template-columns: 1fr; }
  .running { flex-wrap: wrap; gap: 0 4mm; }
  .step { grid-template-columns: 9mm 8mm 1fr 9mm; }
  .time { grid-column: 3; }
  .names { padding-left: 2mm; }
  .stop { margin: 1.5mm 2mm; }
  table.data thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  table.data, table.data tbody { display: block; }
  table.data .short { white-space: nowrap; }
table.data tr { display: block; border-bottom: 0.4mm solid #000; padding: 1mm 0; }
  table.data td { display: flex; gap: 3mm; justify-content: space-between; border-bottom: 0; padding: 0.3mm 0; }
  table.data td::before { content: attr(data-head); font-weight: bold; flex: 0 0 40%; }
  table.data .n { text-align: left; }
}
)css";

} // namespace

std::string html_style(const std::string& page_word) {
  // Only letters: it stands in a string of the style sheet.
  std::string word;
  for (const char c : page_word)
    if (c != '"' && c != '\\' && c != '<' && c != '&') word += c;
  std::string style(kStyle);
  constexpr std::string_view kPlace = "PAGEWORD";
  style.replace(style.find(kPlace), kPlace.size(), word);
  return style;
}

} // namespace tacksquare
