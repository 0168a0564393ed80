#include "job/file/start.h"

#include "base/escape.h"
#include "base/numbers.h"
#include "base/quantity.h"
#include "tables/metals.h"

#include <fmt/format.h>
#include <string_view>

namespace tacksquare {

namespace {

constexpr std::string_view kHead = R"(<?xml version="1.0" encoding="UTF-8"?>
<!-- A job for tacksquare. Change what stands here, then:  tacksquare inspect THIS-FILE
     Every quantity carries its unit: "400 mm", "15 3/4 in", "45 s". docs/job-file.md explains every word. -->
<tacksquare-job name="{name}" number="1">

  <!-- Sheet as bought. Or by gauge: gauge="14" gauge-system="us-steel". A calliper wins: measured="1.95 mm". -->
  <sheet id="main" metal="{metal}" thickness="{thickness}"/>
)";

constexpr std::string_view kOpen = R"(
  <!-- Outside sizes, for one who stands in front of the box: width left to right, depth front to back, height under
       to top. Folded from one blank, with four corner seams S1 to S4 along its depth. Weld settings that are not stated
       come from tables, as a start for a trial coupon. -->
  <box id="box" name="{name}" count="{count}">
    <open-box width="{width}" depth="{depth}" height="{height}" open="front" made="folded" inside-radius="{radius}"
              corner="half-open-corner" weld="square" side="outside" finish="flush"/>
  </box>
)";

constexpr std::string_view kClosed = R"(
  <!-- The last panel can be welded from outside only. State full-penetration="yes" when a coupon has shown the root
       fused through, and the settings that did it. -->
  <procedure id="outside" full-penetration="no"/>

  <!-- Outside sizes, for one who stands in front of the box: width left to right, depth front to back, height under
       to top. Six panels, twelve seams; the top goes on last. The vent lets the air out while it is welded and cools,
       and is plugged as the last step: in a wall it can be reached without one more turn of the box. -->
  <box id="box" name="{name}" count="{count}" last-face="T">
    <closed-box width="{width}" depth="{depth}" height="{height}" corner="half-open-corner" weld="square" side="outside"
                finish="flush" procedure="outside"/>
    <vent face="R" at="{vent}, {vent}" diameter="8 mm" plugged="last"/>
  </box>
)";

constexpr std::string_view kOpening = R"(
  <!-- The hole that they go into, side by side. One width is a start: put in all nine, at the top, in the middle and
       under, each at the front edge, in the middle of the depth and at the back: top="1204 mm, 1203 mm, 1203.5 mm". The
       narrowest governs. Add heights, diagonals and plumb; docs/job-file.md tells how to measure them. clearance is
       wanted over the whole width when all stand in it. Painted or powdered: coating="0.08 mm", per face of a box.
       Without a stand all boxes stand in it; name them from left to right to say more of one: <stand box="box" copy="1"
       cut-last="yes"/> is cut to suit what is left. How much smaller than stated they may be made for it is size-under of
       the limits below. -->
  <opening name="OPENING" clearance="1.6 mm">
    <widths middle="{opening}"/>
  </opening>
)";

constexpr std::string_view kTail = R"(
  <!-- What the finished box must keep. Delete what the usual limits of the trade may fill. -->
  <limits size-over="{over}" size-under="{under}" opposite-sides="0.5 mm"/>

  <!-- Who works: the names on the sheet. -->
  <crew welder="W" grinder="G"/>
</tacksquare-job>
)";

// Of a bend: the thickness, or what the metal needs not to crack.
std::string bend_radius(const StarterOptions& options) {
  const auto parsed = parse_length(options.thickness);
  const auto* thickness = std::get_if<Length>(&parsed);
  const Metal* metal = find_metal(options.metal);
  if (!thickness || !metal) return options.thickness;
  return metal->min_bend_ratio <= 1.0 ? options.thickness : written(*thickness * metal->min_bend_ratio);
}

// From two edges of the wall: in the corner, but inside small boxes too.
std::string vent_place(const StarterOptions& options) {
  double least = 200.0;
  for (const std::string& size : {options.depth, options.height}) {
    const auto parsed = parse_length(size);
    if (const auto* length = std::get_if<Length>(&parsed)) least = std::min(least, in_mm(*length));
  }
  return shortest(round_to(least / 4.0, 1.0)) + " mm";
}

} // namespace

std::string starter_job(const StarterOptions& options) {
  using namespace fmt::literals;
  std::string text(kHead);
  text += options.form == "closed" ? kClosed : kOpen;
  const bool opening = options.opening_width != "none";
  if (opening) text += kOpening;
  text += kTail;
  return fmt::format(fmt::runtime(text), "name"_a = escaped(options.name), "metal"_a = escaped(options.metal),
                     "thickness"_a = escaped(options.thickness), "count"_a = options.count,
                     "width"_a = escaped(options.width), "depth"_a = escaped(options.depth),
                     "height"_a = escaped(options.height), "radius"_a = escaped(bend_radius(options)),
                     "vent"_a = vent_place(options), "opening"_a = escaped(options.opening_width),
                     "over"_a = "1 mm", "under"_a = opening ? "5 mm" : "1 mm");
}

} // namespace tacksquare
