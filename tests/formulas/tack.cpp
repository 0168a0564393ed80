#include "formulas/tack.h"

#include "formulas/rows.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

constexpr TackJoint kJoints[] = {TackJoint::butt, TackJoint::open_corner, TackJoint::half_open_corner,
                                 TackJoint::lapped_corner, TackJoint::tee};

Band known(double mm) {
  return {mm, mm, mm};
}
// Joint, sheet a, sheet b, throat, E, nu; of a tack its length before E.
TackStiffness seam(const Arguments& a) {
  return seam_stiffness(kJoints[static_cast<std::size_t>(a[0])], a[1], a[2], known(a[3]), a[4], a[5]);
}
TackStiffness tack(const Arguments& a) {
  return tack_stiffness(kJoints[static_cast<std::size_t>(a[0])], a[1], a[2], known(a[3]), a[4], a[5], a[6]);
}
// What a force gives at the line itself when the sheets are free to turn.
double into(const TackStiffness& s) {
  return 1.0 / s.into_a.value + s.hinge_square_to_a_mm * s.hinge_square_to_a_mm / s.turn.value;
}
double square(const TackStiffness& s) {
  return 1.0 / s.square_to_a.value + s.hinge_into_a_mm * s.hinge_into_a_mm / s.turn.value;
}

} // namespace

TEST_CASE("Tack formulas give the figures of their sources") {
  check_rows(
      "formulas_tack.tsv", 42,
      {{"seam_turn", [](const Arguments& a) { return 1.0 / seam(a).turn.value; }},
       {"seam_into", [](const Arguments& a) { return into(seam(a)); }},
       {"seam_square", [](const Arguments& a) { return square(seam(a)); }},
       {"seam_along", [](const Arguments& a) { return 1.0 / seam(a).along.value; }},
       {"tack_turn", [](const Arguments& a) { return 1.0 / tack(a).turn.value; }},
       {"tack_into", [](const Arguments& a) { return into(tack(a)); }},
       {"tack_square", [](const Arguments& a) { return square(tack(a)); }},
       {"tack_along", [](const Arguments& a) { return 1.0 / tack(a).along.value; }},
       {"across_share", [](const Arguments& a) { return tack_across_share(a[0], a[1], a[2], a[3]).value; }}});
}

TEST_CASE("A joint that is fused through is as one sheet, and a smaller throat is always softer") {
  for (const TackJoint joint : kJoints) {
    const TackStiffness whole = seam_stiffness(joint, 2, 2, known(2), 210e3, 0.3);
    CHECK(whole.turn.value == Approx(kAsOneSheet * 210e3 * 4));
    CHECK(whole.along.value == Approx(kAsOneSheet * 210e3));
    double last_turn = whole.turn.value, last_along = whole.along.value;
    for (double throat = 1.9; throat > 0.2; throat -= 0.1) {
      CAPTURE(throat);
      const TackStiffness s = seam_stiffness(joint, 2, 2, known(throat), 210e3, 0.3);
      CHECK(s.turn.value <= last_turn);
      CHECK(s.along.value <= last_along);
      CHECK(s.turn.value > 0.0);
      last_turn = s.turn.value;
      last_along = s.along.value;
    }
    CHECK(last_turn < 0.01 * whole.turn.value);
  }
}

TEST_CASE("A small throat turns like a ligament between two half planes: with its square") {
  for (const TackJoint joint : kJoints) {
    const TackStiffness deep = seam_stiffness(joint, 2, 2, known(0.4), 210e3, 0.3);
    const TackStiffness half = seam_stiffness(joint, 2, 2, known(0.2), 210e3, 0.3);
    CHECK(deep.turn.value == Approx(4.0 * half.turn.value));
    CHECK(deep.validity == Validity::outside);
  }
}

TEST_CASE("Lengths by s: stiffness per mm of length in translation stays, in turning grows by s squared") {
  for (const TackJoint joint : kJoints) {
    const TackStiffness one = tack_stiffness(joint, 2, 2.5, {1.4, 1, 2}, 10, 210e3, 0.3);
    const TackStiffness big = tack_stiffness(joint, 4, 5, {2.8, 2, 4}, 20, 70e3, 0.3);
    CHECK(big.into_a.value == Approx(one.into_a.value / 3.0));
    CHECK(big.along.low == Approx(one.along.low / 3.0));
    CHECK(big.turn.high == Approx(4.0 * one.turn.high / 3.0));
    CHECK(big.hinge_square_to_a_mm == Approx(2.0 * one.hinge_square_to_a_mm));
  }
}

TEST_CASE("A tack without end turns and slides like a seam") {
  for (const TackJoint joint : kJoints) {
    const TackStiffness s = seam_stiffness(joint, 2, 2, known(1), 210e3, 0.3);
    const TackStiffness t = tack_stiffness(joint, 2, 2, known(1), 4000, 210e3, 0.3);
    CHECK(t.turn.value == Approx(s.turn.value).epsilon(0.01));
    CHECK(t.along.value == Approx(s.along.value).epsilon(0.03));
  }
}

TEST_CASE("Bands hold the throat's own band and more, never beyond one sheet") {
  const Band throat = usual_tack_throat_mm(2);
  CHECK(throat.value == Approx(1.4));
  for (const TackJoint joint : kJoints) {
    const TackStiffness s = tack_stiffness(joint, 2, 2, throat, 10, 210e3, 0.3);
    const TackStiffness sure = tack_stiffness(joint, 2, 2, known(1.4), 10, 210e3, 0.3);
    const TackStiffness least = tack_stiffness(joint, 2, 2, known(1.0), 10, 210e3, 0.3);
    CHECK(s.turn.value == sure.turn.value);
    CHECK(s.turn.low == Approx(least.turn.value / 1.1));
    CHECK(s.turn.high > sure.turn.high);
    for (const Band& b : {s.turn, s.into_a, s.square_to_a, s.along}) {
      CHECK(b.low <= b.value);
      CHECK(b.value <= b.high);
    }
    CHECK(s.turn.high <= kAsOneSheet * 210e3 * 4 * (1 + 1e-12));
    // 1.5 times as thick: the same throat, wider.
    CHECK(tack_stiffness(joint, 2, 3, known(1.4), 10, 210e3, 0.3).turn.low < sure.turn.low);
  }
}

TEST_CASE("Unlike sheets lie within their band") {
  struct Row {
    TackJoint joint;
    double a, b, throat, turn;
  };
  // Slices by tests/formulas/tack_by_calculix.py, 8 elements, E 1.
  for (const Row& row :
       {Row{TackJoint::open_corner, 1, 1.5, 0.7, 20.990}, Row{TackJoint::open_corner, 1.5, 1, 0.7, 20.990},
        Row{TackJoint::half_open_corner, 1, 1.5, 0.75, 25.648},
        Row{TackJoint::half_open_corner, 1.5, 1, 0.75, 11.253}, Row{TackJoint::tee, 1, 1.5, 0.7, 10.372},
        Row{TackJoint::tee, 1.5, 1, 0.7, 22.357}}) {
    const Band turn = seam_stiffness(row.joint, row.a, row.b, known(row.throat), 1, 0.3).turn;
    CAPTURE(row.a, row.b, row.turn, 1.0 / turn.value);
    CHECK(1.0 / row.turn > turn.low);
    CHECK(1.0 / row.turn < turn.high);
  }
}

TEST_CASE("The hinge of a butt lies in its throat, that of a corner away from the welder") {
  CHECK(seam_stiffness(TackJoint::butt, 2, 2, known(1), 210e3, 0.3).hinge_square_to_a_mm ==
        Approx(0.53).margin(0.02));
  const TackStiffness open = seam_stiffness(TackJoint::open_corner, 2, 2, known(1), 210e3, 0.3);
  CHECK(open.hinge_into_a_mm == Approx(-open.hinge_square_to_a_mm));
  CHECK(open.hinge_into_a_mm > 0.5);
}

TEST_CASE("Outside and refused sizes say so") {
  const auto note = [](double a, double b, double throat, double length, double nu) {
    return tack_stiffness(TackJoint::tee, a, b, known(throat), length, 210e3, nu).validity;
  };
  CHECK(note(2, 2, 1.4, 10, 0.3) == Validity::inside);
  CHECK(note(2, 3.2, 1.4, 10, 0.3) == Validity::outside);
  CHECK(note(2, 2, 0.5, 10, 0.3) == Validity::outside);
  CHECK(note(2, 2, 1.4, 5, 0.3) == Validity::outside);
  CHECK(note(2, 2, 1.4, 10, 0.45) == Validity::outside);
  CHECK(note(0, 2, 1.4, 10, 0.3) == Validity::refused);
  CHECK(note(2, 2, 1.4, 0, 0.3) == Validity::refused);
  CHECK(note(2, 2, 0, 10, 0.3) == Validity::refused);
  CHECK(tack_across_share(0, 2, 120, 0.004).value == 0.0);
}

TEST_CASE("A tack shrinks across by a share of its seam that grows with its length to all of it") {
  double last = 0.0;
  for (const double length : {3.0, 6.0, 10.0, 20.0, 50.0, 5000.0}) {
    const Band share = tack_across_share(length, 2, 120, 0.0040035);
    CHECK(share.value > last);
    CHECK(share.low < share.value);
    CHECK(share.high > share.value);
    CHECK(share.high <= 1.0);
    const Band angle = tack_angle_share(share);
    CHECK(angle.low == share.low);
    CHECK(angle.high == 1.0);
    CHECK(angle.value == Approx(0.5 * (angle.low + angle.high)));
    last = share.value;
  }
  CHECK(last > 0.99);
}
