#include "physics/elastic/expect.h"

#include "physics/elastic/drawing.h"

namespace tacksquare::elastic {

namespace {

// Pieces that come off one right after the other are one release.
std::vector<Release> releases_of(const Making& making, const Drawing& drawing) {
  std::vector<Release> all;
  for (std::size_t i = 0; i < making.events.size(); ++i) {
    if (making.events[i].kind != Event::Kind::let_go) continue;
    Release release;
    release.first = i;
    while (i + 1 < making.events.size() && making.events[i + 1].kind == Event::Kind::let_go)
      ++i;
    release.last = i;
    release.mm = drawing.released(release.first, release.last);
    all.push_back(std::move(release));
  }
  return all;
}

} // namespace

std::optional<Expectation> expect(const Job& job, const Box& box, const BoxGeometry& geometry,
                                  const Making& making, const ModelOptions& options, std::uint64_t seed,
                                  Diagnostics& out) {
  const std::optional<Prepared> prepared = prepared_of(job, box, geometry, making, options, out);
  if (!prepared) return std::nullopt;
  const Variants variants = variants_of(*prepared, making);
  Drawing drawing(making, variants, seed);
  Expectation made;
  made.model = variants.model;
  made.end = drawing.end_in_the_middle();
  made.put_back_mm = drawing.put_back_mm();
  for (std::size_t i = 0; i < making.events.size(); ++i)
    made.moments.push_back(drawing.moment(making.events[i], i));
  if (making.events.empty()) return made;
  made.place_forces = drawing.place_forces();
  made.slides = drawing.slides();
  made.carried = drawing.carried();
  made.releases = releases_of(making, drawing);
  const std::size_t last = making.events.size() - 1;
  made.ground_draws = drawing.ground(last);
  for (std::size_t w = 0; w < making.watched.size(); ++w) {
    const Eigen::VectorXd draws = made.ground_draws.row(static_cast<Index>(w));
    std::vector<double> each(draws.data(), draws.data() + draws.size());
    made.ground_mm.push_back(band_of(each));
  }
  drawing.leave_misfit_out(last, made);
  return made;
}

double chance_within(const Expectation& e, std::size_t watched, double low, double high) {
  const auto draws = e.ground_draws.row(static_cast<Index>(watched)).array();
  return static_cast<double>((draws >= low && draws <= high).count()) / static_cast<double>(draws.size());
}

} // namespace tacksquare::elastic
