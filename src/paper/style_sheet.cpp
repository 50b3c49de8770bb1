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
h1 { font-size: 17pt; margin: 0 0 1mm; }
h2 { font-size: 15pt; margin: 4mm 0 1.2mm; border-bottom: 0.6mm solid #000; }
h3 { font-size: 11pt; margin: 3mm 0 1mm; }
p, ul { margin: 0 0 1.2mm; }
ul { padding-left: 5mm; }
.imprint { font-size: 9pt; margin-bottom: 3mm; }
.caution { border: 0.5mm solid #000; padding: 1.5mm 2mm; margin: 0 0 2mm; }
.code { font-size: 19pt; margin-right: 3mm; }

figure { margin: 2mm 0; }
figcaption { font-size: 8.5pt; }
svg { display: block; max-width: 100%; height: auto; }
svg text { font-family: "DejaVu Sans", Verdana, sans-serif; fill: #000; }
svg .number { font-weight: bold; paint-order: stroke; stroke: #fff; stroke-width: 0.5; }
svg .bolt { fill: #fff; stroke: #000; stroke-width: 0.4; }
svg .held, svg .direction { fill: none; stroke: #000; stroke-width: 0.4; }
svg .turn { fill: #fff; stroke: #000; stroke-width: 0.35; }
svg .bracket { fill: #fff; stroke: #000; stroke-width: 0.35; }
svg .solid { fill: #000; }
svg .grid { stroke: #bbb; stroke-width: 0.15; }
svg .axis, svg .whisker { stroke: #000; stroke-width: 0.3; }
svg .limit { stroke: #000; stroke-width: 0.35; stroke-dasharray: 1.4 0.8; }
svg .mark { stroke: #000; stroke-width: 0.8; }
svg .tolerance { fill: #e6e6e6; }

.wide { overflow-x: auto; }
.wide svg { min-width: 150mm; }
.wide table { min-width: 170mm; }  /* narrower, it would part words; a small screen scrolls */
table { border-collapse: collapse; width: 100%; font-size: 9pt; }
th, td { border: 0.25mm solid #000; padding: 0.8mm 1.2mm; text-align: left; vertical-align: top; }
th { font-weight: bold; }
tbody th, td { overflow-wrap: anywhere; min-width: 17mm; }
.log td:nth-child(2) { width: 35mm; }
.deviations td:nth-child(2), .wrenches td { white-space: nowrap; }
.wrenches { font-size: 8pt; }
.wrenches td, .wrenches th { min-width: 0; padding: 0.8mm; }
.wide .counts { width: auto; min-width: 0; }
.counts td { min-width: 18mm; }
.counts td:nth-child(2) { min-width: 34mm; }
.order th, .order td { padding: 0.35mm 1.2mm; }
.order tbody th, .order td:nth-child(2) { min-width: 12mm; }
.order td:nth-child(4) { min-width: 40mm; }
.order td:last-child { min-width: 34mm; }
caption { text-align: left; font-size: 9pt; padding-bottom: 0.8mm; }
thead { display: table-header-group; }
tr { break-inside: avoid; }

.form { table-layout: fixed; }
.form th { font-size: 8pt; padding: 0.8mm; }
.form td { min-width: 0; height: 8.1mm; vertical-align: middle; padding: 0 0.8mm; }
.form.roomy td { height: 11mm; }
.form td.number { padding: 0; font-size: 14pt; font-weight: bold; text-align: center; }
.form td.words { font-size: 7.5pt; line-height: 1.25; }
.blank { display: inline-block; min-width: 22mm; border-bottom: 0.3mm solid #000; height: 5.5mm; }
.blank.long { min-width: 46mm; }
.write { margin: 1.5mm 0; }
.box { display: inline-block; width: 5.8mm; height: 5.8mm; border: 0.45mm solid #000;
       vertical-align: middle; margin-right: 1mm; }
.box.ticked::after { content: ""; display: block; width: 2mm; height: 4mm; margin: 0 auto;
                     border: solid #000; border-width: 0 0.7mm 0.7mm 0; transform: rotate(42deg); }
.box.small { width: 4.4mm; height: 4.4mm; }
.box.small.ticked::after { width: 1.5mm; height: 3mm; }
.todo { list-style: none; padding: 0; margin: 0 0 2mm; }
.todo li { display: flex; gap: 1.5mm; margin: 0.8mm 0; break-inside: avoid; }
.todo .box { flex: none; }
.todo div { min-width: 0; }
.ticks { list-style: none; padding: 0; margin: 0.5mm 0 2mm; display: grid;
         grid-template-columns: repeat(auto-fill, minmax(14.4mm, 1fr)); }
.ticks.many { grid-template-columns: repeat(auto-fill, minmax(17.6mm, 1fr)); }
.ticks .box { margin-right: -0.4mm; }  /* its number is nearer to it than the next box */
.ticks li { font-size: 13.5pt; margin: 0.6mm 0; white-space: nowrap; break-inside: avoid; }
.pass { break-inside: avoid; }
.pass.long { break-inside: auto; }
.pass h3 { border-top: 0.25mm solid #000; padding-top: 1mm; }
.set { font-size: 13pt; margin-left: 4mm; white-space: nowrap; }

.labels { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; }
.labels li { width: 59.6mm; height: 38mm; border: 0.2mm dashed #000; padding: 1.2mm; overflow: hidden;
             break-inside: avoid; display: flex; flex-wrap: wrap; align-content: flex-start;
             gap: 0 1mm; font-size: 8.5pt; line-height: 1.2; }
.labels svg { flex: none; width: 21mm; height: 21mm; }
.labels .text { flex: 1 1 30mm; min-width: 0; }
.labels .what { flex: 0 0 100%; min-width: 0; font-size: 8pt; }
.labels .size { font-size: 10pt; white-space: nowrap; }  /* a grade belongs to its size */
.labels .size.long { font-size: 6.5pt; }
.labels .address { font-size: 13pt; font-weight: bold; line-height: 1.05; margin-bottom: 0.5mm; }
.labels .address.long { font-size: 9pt; }
.labels .bag { font-size: 10pt; font-weight: bold; }

/* On a small screen the order of the joints is a list: nothing to do there goes out of sight. */
@media screen and (max-width: 500px) {
  .wide .order { min-width: 0; display: block; }
  .order thead { display: none; }
  .order tbody { display: block; }
  .order tr { display: grid; grid-template-columns: 9mm minmax(0, 1fr) 22mm; border: 0.25mm solid #000; }
  .order th, .order td, .order td:nth-child(4), .order td:last-child { border: 0; min-width: 0; }
  .order tbody th { grid-row: 1 / 4; }
  .order td:nth-child(2) { font-weight: bold; }
  .order td:nth-child(3), .order td:nth-child(4) { grid-column: 2; }
  .order td:last-child { grid-area: 1 / 3 / 4; }
}

@media print {
  body { padding: 0 0.6mm 0 0; max-width: none; }  /* else the last border is cut */
  .wide { overflow: visible; }
  .joint, .together { break-inside: avoid; }
  .sheet { break-after: page; }
  .sheet:last-child { break-after: auto; }
  .sheet > h2:first-child { margin-top: 0; }
  .first h2 { font-size: 13pt; margin: 2.4mm 0 0.8mm; }  /* with the order of the joints */
  h2, h3 { break-after: avoid; }
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
