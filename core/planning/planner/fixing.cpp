#include "planning/planner/fixing.h"

#include "planning/planner/steps.h"

#include <algorithm>

namespace tacksquare {
namespace {

const Fixture* stated_for(const BoxCase& box) {
  const auto index = static_cast<std::size_t>(&box.box - box.job.boxes.data());
  for (const Fixture& fixture : box.job.fixtures)
    if (fixture.box == index) return &fixture;
  return nullptr;
}

fixture::Course course_of(const BoxCase& box) {
  fixture::Course course{box.work, box.tacks, {}};
  for (const OrderedRun& run : box.order.runs)
    course.runs.push_back({run.run, box.geometry.attitudes[run.attitude].down_direction});
  return course;
}

} // namespace

Fixing fixing_of(const BoxCase& box, Fixture planned) {
  const BoxMetal metal = metal_of(box.job, box.box, box.geometry);
  const fixture::Held held{box.job, box.box, box.geometry, metal, box.work.last_face};
  const bool stops = std::any_of(planned.pieces.begin(), planned.pieces.end(),
                                 [](const FixturePiece& piece) { return piece.kind == ItemKind::stop; });
  Diagnostics faults;
  std::optional<fixture::SetUp> set_up = fixture::set_up(held, planned, course_of(box), stops, faults);
  if (!set_up) throw InternalError("a planned fixture with a fault: " + faults.items().front().message);
  return Fixing{std::move(planned), false, std::move(*set_up)};
}

void hold_again(BoxCase& box) {
  box.fixing->set_up = fixing_of(box, box.fixed().fixture).set_up;
}

std::optional<Fixing> fix(const BoxCase& box, Diagnostics& out) {
  const BoxMetal metal = metal_of(box.job, box.box, box.geometry);
  const fixture::Held held{box.job, box.box, box.geometry, metal, box.work.last_face};
  const fixture::Course course = course_of(box);
  if (const Fixture* stated = stated_for(box)) {
    std::optional<fixture::SetUp> set_up = fixture::set_up(held, *stated, course, true, out);
    if (!set_up) return std::nullopt;
    if (const std::string& down = tacking_attitude(box).down; stated->down != down) {
      out.error("down-other", stated->where,
                "the fixture has " + stated->down + " on the table, but box " + box.box.id +
                    " is tacked lying on " + down,
                "state face-down=\"" + stated->down + "\" in the box, or a fixture for " + down);
      return std::nullopt;
    }
    return Fixing{*stated, true, std::move(*set_up)};
  }
  const auto index = static_cast<std::size_t>(&box.box - box.job.boxes.data());
  return fixing_of(box, plan_fixture(held, course, tacking_attitude(box).down, box.hold(), index));
}

} // namespace tacksquare
