#include "paper/style_sheet.h"

#include <fmt/format.h>

#include "failure/failure.h"
#include "paper/markup.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace paper {
namespace {

constexpr std::string_view kRules = R"css(
* { box-sizing: border-box; }
html { background: #fff; color: #000; font: 10.5pt/1.35 "DejaVu Sans", Verdana, sans-serif; }
body { margin: 0 auto; padding: 4mm; max-width: 188mm; overflow-wrap: break-word; }
h1 { font-size: 14pt; line-height: 1.15; margin: 0 0 1mm; }
h2 { font-size: 15pt; line-height: 1.2; margin: 4mm 0 1.5mm; padding-top: 1mm; border-top: 0.8mm solid #000; }
h3 { font-size: 11pt; margin: 3mm 0 1mm; }
p, ul { margin: 0 0 1.2mm; }
ul { padding-left: 5mm; }
.imprint { font-size: 9pt; margin-bottom: 3mm; }
h4 { font-size: 10.5pt; margin: 2.5mm 0 0.8mm; }
h3, h4 { break-after: avoid; }
pre { font: 8.5pt/1.35 "DejaVu Sans Mono", monospace; white-space: pre-wrap; margin: 0 0 2mm;
      padding: 1.2mm 2mm; border-left: 0.8mm solid #bbb; break-inside: avoid; }
code { font: 0.9em "DejaVu Sans Mono", monospace; }
a { color: #000; }
.caution { border: 0.5mm solid #000; padding: 1.5mm 2mm; margin: 0 0 2mm; }

.answer { border: 1.1mm solid #000; padding: 2.5mm 3.5mm; margin: 0 0 2.5mm; }
.answer .large { font-size: 26pt; font-weight: bold; line-height: 1.1; margin: 0 0 1.5mm; }
.answer p { margin: 0 0 0.8mm; }

.top { display: grid; grid-template-columns: minmax(0, 1fr) 80mm; column-gap: 3mm; margin: 0 0 0.5mm; }
.top.wide-map { display: block; }
.top h2 { margin: 0 0 0.5mm; padding: 0; border: 0; }
.top .map { margin: 0; }
.joint { border-top: 0.8mm solid #000; margin: 2mm 0 0; padding: 0.8mm 0 0; }
.code { font-size: 34pt; line-height: 1.17; }
.code.long { font-size: 20pt; }
.turn-of { font-size: 20pt; margin-left: 2mm; white-space: nowrap; }
.holds { font-size: 13pt; line-height: 1.1; font-weight: bold; }
.torque { font-size: 20pt; line-height: 1.1; font-weight: bold; }
.torque.long { font-size: 12pt; }
.why { font-size: 10pt; line-height: 1.2; margin: 0 0 0.6mm; }
.datum { white-space: nowrap; }
.datum .blank { height: 4.6mm; }
.torque .at { font-size: 10pt; }
.facts { break-inside: avoid; }
.facts p { margin: 0 0 0.5mm; }
.facts p:not(.torque):not(.holds) { font-size: 10pt; line-height: 1.25; }

figure { margin: 2mm 0; }
figcaption { font-size: 8.5pt; line-height: 1.15; }
.photographs { display: grid; grid-template-columns: repeat(auto-fill, minmax(76mm, 1fr)); gap: 3mm; }
.photographs figure { margin: 0; break-inside: avoid; }
.photographs img { display: block; max-width: 100%; max-height: 90mm; border: 0.25mm solid #000; }
svg { display: block; max-width: 100%; height: auto; }
svg text { font-family: "DejaVu Sans", Verdana, sans-serif; fill: #000; }
svg .number { font-weight: bold; paint-order: stroke; stroke: #fff; stroke-width: 0.5; }
svg .turn { fill: #fff; font-weight: bold; }
svg .bolt { fill: #fff; stroke: #000; stroke-width: 0.4; }
svg .held, svg .direction { fill: none; stroke: #000; stroke-width: 0.4; }
svg .leader { stroke: #000; stroke-width: 0.2; }
svg .solid, svg .bracket { fill: #000; }
svg .best { fill: #fff; stroke: #000; stroke-width: 0.35; }
svg .grid { stroke: #bbb; stroke-width: 0.15; }
svg .axis { stroke: #000; stroke-width: 0.3; }
svg .spread { stroke: #000; stroke-width: 0.25; }
svg .limit { stroke: #000; stroke-width: 0.4; }
svg .mark { stroke: #000; stroke-width: 0.8; }
svg .tolerance { fill: #e6e6e6; }
svg .frame { fill: none; stroke: #000; stroke-width: 0.7; }

.legend { display: flex; flex-wrap: wrap; column-gap: 1mm; }

.chart { display: flex; align-items: flex-start; margin: 0 0 1.5mm; break-inside: avoid; }
.chart figure { flex: none; margin: 0; max-width: 100%; }
.chart table { flex: 1 1 70mm; width: auto; min-width: 0; font-size: 9pt; line-height: 3.7mm; }
.chart td, .chart th { border: 0; padding: 0 1mm; vertical-align: middle; white-space: nowrap; }
.chart thead th { height: 7mm; font-size: 8pt; border-bottom: 0.3mm solid #000; }
.chart tbody th, .chart td { height: 9mm; min-width: 0; border-bottom: 0.15mm solid #bbb; }
.chart .result { font-weight: bold; }
.chart .more { font-size: 7.5pt; }
.chart .outside th, .chart .outside td { border: solid #000; border-width: 0.6mm 0; }
.chart .outside td:last-child { border-right-width: 0.6mm; }

.wide { overflow-x: auto; }
.wide table { min-width: 170mm; }  /* narrower, it would part words; a small screen stacks it */
table { border-collapse: collapse; width: 100%; font-size: 9pt; }
th, td { border: 0.25mm solid #000; padding: 0.8mm 1.2mm; text-align: left; vertical-align: top; }
th { font-weight: bold; }
tbody th, td { overflow-wrap: anywhere; min-width: 17mm; }
.log td:nth-child(2) { width: 35mm; }
.wrenches td { white-space: nowrap; }
.deviations td:nth-child(2) { min-width: 23mm; }
.deviations td:nth-child(3) { min-width: 56mm; }
.deviations td:nth-child(4) { min-width: 44mm; }
.wrenches { font-size: 8pt; }
.wrenches td, .wrenches th { min-width: 0; padding: 0.8mm; }
.joints td, .joints th { padding: 0.7mm 1mm; }
.joints td { min-width: 0; }
.joints td:nth-child(3) { width: 48mm; }
.joints td:nth-child(n+4) { white-space: nowrap; }
.wide:has(.joints) { margin-bottom: 1.5mm; }
.order { font-size: 8.5pt; }
.order th, .order td { padding: 0.35mm 1mm; }
.order tbody th { min-width: 10mm; }
.order td:nth-child(2) { min-width: 16mm; }
.order td:nth-child(4) { min-width: 40mm; }
.order td:last-child { min-width: 31mm; white-space: nowrap; }
caption { text-align: left; font-size: 9pt; padding-bottom: 0.8mm; }
thead { display: table-header-group; }
tr { break-inside: avoid; }

.form { table-layout: fixed; }
.form th { font-size: 8.5pt; padding: 0.6mm 0.8mm; }
.form td { min-width: 0; height: 10.2mm; vertical-align: middle; padding: 0 0.8mm; }
.form.short td { height: 9mm; }
.form td.number { padding: 0; font-size: 17pt; font-weight: bold; text-align: center; }
.form td.words { font-size: 11pt; line-height: 1.22; white-space: pre-wrap; padding: 0 1mm; }
.form td.pulls { padding: 0; font-size: 11pt; }
.form td.pulls svg { width: 100%; }
.form .box { margin: 0 1.4mm; }
svg .between { fill: none; stroke: #000; stroke-width: 0.25; }
.pulls .mark { fill: none; stroke-width: 0.6; }
.blank { display: inline-block; min-width: 22mm; border-bottom: 0.3mm solid #000; height: 5.5mm; }
.blank.long { min-width: 46mm; }
.write { margin: 1mm 0; }
.box { display: inline-block; width: 5.8mm; height: 5.8mm; border: 0.45mm solid #000;
       vertical-align: middle; margin-right: 1mm; }
.ticked::after { content: ""; display: block; width: 2mm; height: 4mm; margin: 0 auto;
                 border: solid #000; border-width: 0 0.7mm 0.7mm 0; transform: rotate(42deg); }
.box.small { width: 4.4mm; height: 4.4mm; }
.box.small.ticked::after { width: 1.5mm; height: 3mm; }
.todo { list-style: none; padding: 0; margin: 0 0 2mm; }
.todo li { display: flex; gap: 1.5mm; margin: 0.8mm 0; break-inside: avoid; }
.todo .box { flex: none; }
.todo div { min-width: 0; }

.pass { table-layout: fixed; margin: 0 0 0.4mm; break-inside: avoid; }
.pass.long, .pass.long tr { break-inside: auto; }
.pass th, .pass td { border: 0; min-width: 0; }
.pass th { border-top: 0.35mm solid #000; padding: 0.4mm 0 0.5mm; font-size: 9.5pt; line-height: 1.2; }
.pass td { padding: 0; }
.pass .setting { padding-right: 1.5mm; }
.pass .write { margin: 0.5mm 0 0; font-size: 9pt; white-space: nowrap; }
.pass .blank { min-width: 13mm; }
.beside { display: flex; flex-wrap: wrap; column-gap: 3mm; align-items: center; }
.beside .cells { padding-right: 0; }
.work .beside .write { margin: 0; font-size: 9pt; }
.set { font-size: 26pt; font-weight: bold; line-height: 1; white-space: nowrap; }
.set.long { font-size: 19pt; }
.set.word { font-size: 15pt; line-height: 1.1; white-space: normal; }
.set .unit { font-size: 13pt; }
.with { font-size: 10.5pt; font-weight: bold; line-height: 1; }
.work p { margin: 0.5mm 0; font-size: 9.5pt; line-height: 1.25; }
.cells { list-style: none; margin: 0; padding: 0 0.8mm 0.8mm 0; display: flex; flex-wrap: wrap; }
.cells li { width: 15mm; height: 13mm; border: 0.35mm solid #000; margin: 0 -0.35mm -0.35mm 0;
            padding: 0.4mm 0.7mm; white-space: nowrap; font-size: 17pt; line-height: 1.1; font-weight: bold;
            break-inside: avoid; position: relative; }
.cells .tick { position: absolute; right: 2mm; bottom: 1.6mm; }
.cells .tick::after { width: 2.6mm; height: 5.4mm; border-width: 0 0.9mm 0.9mm 0; }
.cells.low li { height: 8mm; line-height: 1; font-size: 14pt; }
.cells.low .tick { right: 1.5mm; bottom: 1mm; }
.cells.low .tick::after { width: 2mm; height: 4mm; }

.labels { list-style: none; margin: 0; padding: 0.1mm; display: grid;
          grid-template-columns: repeat(auto-fill, 59.5mm); }
.labels li { width: 59.7mm; min-height: 40mm; border: 0.2mm dashed #000; margin: 0 0 -0.2mm;  /* one line to cut */
             padding: 0.8mm 1.4mm; overflow-wrap: anywhere; break-inside: avoid; display: flex;
             flex-wrap: wrap; align-content: flex-start; gap: 0.4mm 1mm; font-size: 8.5pt; line-height: 1.2; }
.labels svg { flex: none; width: 21mm; height: 21mm; }
.labels .text { flex: 1 1 30mm; min-width: 0; }
.labels .what { flex: 0 0 100%; min-width: 0; }
.labels .size { font-size: 11pt; line-height: 1.15; font-weight: bold; }
.labels .size.long { font-size: 8pt; }
.labels .holds { font-size: 7.5pt; font-weight: normal; line-height: 1.15; }
.labels .holds.long { font-size: 7pt; }
.labels .machine { font-size: 7pt; line-height: 1.17; }
.labels .machine.long { font-size: 6.5pt; }
.labels .address { font-size: 15pt; font-weight: bold; line-height: 1.05; margin-bottom: 0.5mm; }
.labels .address.long { font-size: 10pt; }
.labels .address.longest { font-size: 8pt; }
.labels .count { font-size: 11pt; font-weight: bold; }
.labels .bag { font-size: 9.5pt; }
.labels .bag.long { font-size: 7pt; line-height: 1.15; }

/* On a small screen nothing goes out of sight: the map stands below the facts, and each row of a
   table is a block with the heading before every cell. */
@media screen and (max-width: 500px) {
  .top { display: block; }
  .chart { display: block; }
  .chart table { width: 100%; }
  .wide { overflow: visible; }
  .wide table { min-width: 0; display: block; }
  .wide thead { display: none; }
  .wide tbody, .wide tr, .wide tbody th, .wide td { display: block; width: auto; height: auto; min-width: 0; white-space: normal; }
  .wide tr { border: 0.25mm solid #000; margin: 0 0 1.2mm; padding: 0.8mm 1.2mm; }
  .wide tbody th, .wide td { border: 0; padding: 0.2mm 0; }
  .wide .form td { height: auto; }
  .wide .form td.number, .wide .form td.number + td { display: inline-block; vertical-align: middle; min-width: 12mm; }
  .wide .log tbody th, .wide .log td:nth-child(-n+3) { display: inline-block; width: auto; margin-right: 2mm; font-weight: bold; }
  .pass, .pass tbody, .pass tr, .pass td { display: block; }
  .pass thead tr { display: flex; flex-wrap: wrap; column-gap: 2mm; border-top: 0.35mm solid #000; }
  .pass thead { display: block; }
  .pass th { border: 0; width: auto !important; overflow-wrap: normal; }
  .cells { padding-right: 0; }
  .cells li { width: 14mm; }
  .wide .joints td { width: auto; }
  .wide .joints td:nth-child(n+4) { display: inline-block; margin-right: 3mm; }
  .wide .order tbody th, .wide .order td:nth-child(-n+3) { display: inline-block; margin-right: 2mm; font-weight: bold; }
  .wide td[data-heading]::before { content: attr(data-heading) ": "; font-weight: bold; }
  .wide .order td:nth-child(-n+3)::before { content: none; }
  .wide .log td:nth-child(n+2)::before { content: none; }
}

@media print {
  body { padding: 0 0.6mm 0 0; max-width: none; }  /* else the last border is cut */
  .wide { overflow: visible; }
  .whole, .together, .caution, .why { break-inside: avoid; }
  .first h2 { font-size: 13pt; margin: 2.4mm 0 0.8mm; }  /* with the order of the joints */
  h2, h3 { break-after: avoid; }
  .top { break-inside: avoid; break-after: avoid; }
  .top.wide-map { break-inside: auto; break-after: auto; }
  .joint > .write, .joint > .why, .joint > .caution { break-after: avoid; }
  figure { break-inside: auto; }
  svg { break-inside: avoid; }
}
)css";

// The margins of a printed page hold the footer and the count of pages.
constexpr std::string_view kPage = R"css(
@page {{
  size: {0};
  margin: 10mm 15mm 13mm;
  @bottom-left {{ content: {1}; font: 7pt "DejaVu Sans", Verdana, sans-serif; color: #000; width: 75%; }}
  @bottom-right {{ content: "page " counter(page) " of " counter(pages);
                  font: 8pt "DejaVu Sans", Verdana, sans-serif; color: #000; }}
}}
)css";

}  // namespace

PaperSize read_paper_size(std::string_view text) {
  if (quantity::same_in_any_case(text, "a4")) return PaperSize::A4;
  if (quantity::same_in_any_case(text, "letter")) return PaperSize::Letter;
  throw failure::InputError(
      fmt::format("{} is no paper size; expected a4 or letter", quantity::quoted(text)));
}

std::string style_sheet(PaperSize size, std::string_view footer) {
  return std::string(kRules.substr(1)) + fmt::format(kPage.substr(1),
                                                     size == PaperSize::A4 ? "A4" : "letter",
                                                     style_string(footer));
}

}  // namespace paper
