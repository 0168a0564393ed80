// What a planned box gives to the elastic model, and that the model takes whatever a job can state.
#include "planning/planner/case_of.h"
#include "planning/planner/elastic_case.h"
#include "support/planned.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const std::optional<RowFit> kNoRow;

// A box as make_plan has it, of a job without an opening; the job must outlive it.
BoxCase case_of(const Job& job, std::size_t index) {
  Diagnostics out;
  std::optional<BoxCase> box = case_of(job, index, kNoRow, out);
  INFO(told(out));
  REQUIRE(box);
  return std::move(*box);
}

elastic::Expectation expected(const BoxCase& box, const ElasticCase& made) {
  Diagnostics out;
  const auto e = elastic::expect(box.job, box.box, box.geometry, made.making, {}, 1, out);
  INFO(told(out));
  REQUIRE(e);
  return *e;
}

} // namespace

// A folded locker, a T from both sides, a bracket of own faces, a tray of a brake's own deductions: each with
// its tacks and runs in order.
TEST_CASE("jobs of many kinds go through the elastic model, every step with a figure") {
  for (const char* name :
       {"own-deductions.xml", "bracket.xml", "web-both-sides.xml", "lockers-one-measured.xml"}) {
    INFO(name);
    const JobReading reading = read_job(odd_job_text(name));
    REQUIRE(reading.job);
    const BoxCase box = case_of(*reading.job, 0);
    const ElasticCase made = elastic_case(box);
    CHECK(made.made.size() ==
          made.making.tacks.size() + made.making.welds.size() + 2 * made.pieces.size()); // on and off
    CHECK(made.making.tacks.size() == box.tacks.size());
    REQUIRE(!made.making.watched.empty());
    const elastic::Expectation e = expected(box, made);
    REQUIRE(e.moments.size() == made.made.size());
    double moved = 0.0;
    for (const elastic::ExpectedMoment& m : e.moments) {
      REQUIRE(m.mm.size() == made.making.watched.size());
      for (const Band& b : m.mm) {
        CHECK(b.low <= b.value);
        CHECK(b.value <= b.high);
        moved = std::max(moved, std::abs(b.high));
      }
    }
    CHECK(moved > 0.01);
    CHECK(moved < 20.0);
  }
}

TEST_CASE("a wall that was measured leaning comes in leaning, in place of the usual misfit") {
  const std::string usual = sample_text("gear-locker.xml");
  const JobReading plain = read_job(usual);
  REQUIRE(plain.job);
  Job job = *plain.job;
  const BoxCase before = case_of(job, 0);
  const ElasticCase as_usual = elastic_case(before);
  for (const elastic::MisfitSpread& m : as_usual.making.misfits)
    CHECK(m.middle == 0.0);

  MeasuredBox measured;
  std::size_t wall = 0;
  while (job.boxes[0].faces[wall].id != "L")
    ++wall;
  measured.leans.push_back({wall, mm(3.0), mm(1.0), {}});
  job.measured = {measured};
  const ElasticCase read = elastic_case(case_of(job, 0));
  int leaning = 0;
  for (const elastic::MisfitSpread& m : read.making.misfits) {
    if (m.misfit.kind != elastic::Misfit::Kind::lean || m.middle == 0.0) continue;
    ++leaning;
    // The wall is 300 mm tall: (3 + 1)/2 and (3 - 1)/2 over it.
    CHECK(std::abs(m.middle) * 300.0 == Approx(m.misfit.place == 0 ? 2.0 : 1.0).epsilon(0.01));
  }
  CHECK(leaning == 2);
}

TEST_CASE("a wall's lean is that of the bend it stands on, not of the lip that is bent up from it") {
  const JobReading reading = read_job(sample_text("divided-tray.xml"));
  REQUIRE(reading.job);
  Job job = *reading.job;
  MeasuredBox measured;
  std::size_t wall = 0;
  while (job.boxes[0].faces[wall].id != "L")
    ++wall;
  measured.leans.push_back({wall, mm(2.0), mm(2.0), {}});
  job.measured = {measured};
  const BoxCase box = case_of(job, 0);
  std::vector<std::size_t> of_wall;
  for (std::size_t b = 0; b < box.geometry.bends.size(); ++b) {
    const BendLine& line = box.geometry.bends[b];
    const Bend& bend = box.box.parts[line.part].bends[line.bend];
    if (bend.face_a == wall || bend.face_b == wall) of_wall.push_back(b);
  }
  REQUIRE(of_wall.size() == 2); // to the base, and to its lip
  std::vector<std::size_t> leaning;
  for (const elastic::MisfitSpread& m : elastic_case(box).making.misfits)
    if (m.misfit.kind == elastic::Misfit::Kind::lean && m.middle != 0.0) leaning.push_back(m.misfit.of);
  REQUIRE(leaning.size() == 1);
  const BendLine& foot = box.geometry.bends[leaning[0]];
  CHECK(std::abs(foot.start.z) < 2.0); // on the base
}

TEST_CASE("a seam in stitches shrinks in each of them as the same seam welded through would") {
  const JobReading stitched = read_job(odd_job_text("stitched-rack.xml"));
  REQUIRE(stitched.job);
  Job through = *stitched.job;
  for (Seam& s : through.boxes[0].seams)
    s.stitch.reset();
  const BoxCase one = case_of(*stitched.job, 0), other = case_of(through, 0);
  const ElasticCase a = elastic_case(one), b = elastic_case(other);
  int stitches = 0;
  for (std::size_t s = 0; s < a.making.seams.size(); ++s) {
    stitches += one.box.seams[s].stitch ? 1 : 0;
    CHECK(a.making.seams[s].force_N.value == Approx(b.making.seams[s].force_N.value));
    CHECK(a.making.seams[s].angle_rad.value == Approx(b.making.seams[s].angle_rad.value));
  }
  CHECK(stitches > 0);
}

TEST_CASE("runs keep their order and their direction") {
  const JobReading reading = read_job(sample_text("gear-locker.xml"));
  REQUIRE(reading.job);
  const BoxCase box = case_of(*reading.job, 0);
  const ElasticCase made = elastic_case(box);
  std::size_t k = 0;
  auto last = made.made.begin();
  for (const OrderedRun& ordered : box.order.runs) {
    const Run& run = box.work.runs[ordered.run];
    if (run.length_mm() <= 0.0) continue;
    REQUIRE(k < made.making.welds.size());
    const elastic::WeldLength& w = made.making.welds[k];
    CHECK(std::count(made.made.begin(), made.made.end(), run.id) == 1);
    if (k > 0) CHECK(last < std::find(made.made.begin(), made.made.end(), run.id));
    last = std::find(made.made.begin(), made.made.end(), run.id);
    CHECK((w.backward ? w.to_mm : w.from_mm) == run.from_mm);
    CHECK((w.backward ? w.from_mm : w.to_mm) == run.to_mm);
    ++k;
  }
  CHECK(k == made.making.welds.size());
}

TEST_CASE("a tack that was cut through says how stiff the tacks are; else they are as usual") {
  JobReading reading = read_job(odd_job_text("lockers-as-hoped.xml"));
  REQUIRE(reading.job);
  Job job = *reading.job;
  const std::vector<elastic::SeamSprings> usual = seam_springs(case_of(job, 0));
  const double t = in_mm(job.sheets.at(0).thickness);
  job.rules.tack_throat = mm(0.7 * t);
  const std::vector<elastic::SeamSprings> same = seam_springs(case_of(job, 0));
  job.rules.tack_throat = mm(0.35 * t);
  const std::vector<elastic::SeamSprings> poor = seam_springs(case_of(job, 0));
  REQUIRE(usual.size() == job.boxes.at(0).seams.size());
  for (std::size_t s = 0; s < usual.size(); ++s) {
    CHECK(same[s].tack.turn == Approx(usual[s].tack.turn));
    CHECK(same[s].tack.along == Approx(usual[s].tack.along));
    CHECK(poor[s].tack.turn < 0.2 * usual[s].tack.turn);
    CHECK(poor[s].tack.into_a < usual[s].tack.into_a);
    CHECK(poor[s].weld.turn == usual[s].weld.turn);
  }
}

// Into the sheet that covers the other's edge a joint is not as stiff as into the other one.
TEST_CASE("springs turn round with the sheet that covers the other") {
  const auto springs = [](bool b_covers) {
    JobReading reading = read_job(odd_job_text("bracket.xml"));
    REQUIRE(reading.job);
    Job job = *reading.job;
    Seam& seam = job.boxes.at(0).seams.at(0);
    seam.over = b_covers ? seam.face_b : seam.face_a;
    return seam_springs(case_of(job, 0)).at(0).tack;
  };
  const elastic::LineSprings a = springs(false), b = springs(true);
  CHECK(a.into_a != b.into_a);
  CHECK(a.into_a == Approx(b.square_to_a));
  CHECK(a.square_to_a == Approx(b.into_a));
  CHECK(a.along == Approx(b.along));
}
