// Expansion of the short forms against hand calculations. Sizes mm; t/2 = h.
#include "base/numbers.h"
#include "job/file/read_job.h"
#include "job/forms.h"
#include "support/catch.h"

#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

using namespace tacksquare;

namespace {

Job read(const std::string& text) {
  const JobReading reading = read_job(text);
  INFO(print_diagnostics(reading.diagnostics, "job.xml", text, false));
  REQUIRE(reading.job);
  REQUIRE(reading.diagnostics.items().empty());
  return *reading.job;
}

Job sample(const std::string& name) {
  std::ifstream in(std::string(TACKSQUARE_SOURCE "/samples/") + name, std::ios::binary);
  return read({std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()});
}

Job box_of(const std::string& inside, const std::string& attributes = "",
           const std::string& thickness = "2 mm") {
  return read("<tacksquare-job><sheet id=\"s\" metal=\"mild-steel\" thickness=\"" + thickness +
              "\"/><box id=\"b\"" + attributes + ">" + inside + "</box></tacksquare-job>");
}

const Face& face(const Box& box, const std::string& id) {
  for (const Face& f : box.faces)
    if (f.id == id) return f;
  FAIL("no face " << id);
  throw 0;
}

std::string pair_of(const Box& box, const Seam& s) {
  return box.faces[s.face_a].id + "-" + box.faces[s.face_b].id;
}

std::string seams_of(const Box& box) {
  std::string all;
  for (const Seam& s : box.seams)
    all += (all.empty() ? "" : " ") + s.id + ":" + pair_of(box, s);
  return all;
}

std::string covers(const Box& box) {
  std::string all;
  for (const Seam& s : box.seams)
    all += (all.empty() ? "" : " ") + (s.over ? box.faces[*s.over].id : std::string("-"));
  return all;
}

// Corners in space, as "x,y,z".
std::vector<std::string> corners(const Face& f) {
  std::vector<std::string> all;
  for (const Vec2 p : f.outline) {
    const Vec3 q = f.placement.at(p);
    all.push_back(shortest(q.x) + "," + shortest(q.y) + "," + shortest(q.z));
  }
  return all;
}

// Length of the edge that two faces share: ends of edges of both that fall together.
double shared_edge_mm(const Face& a, const Face& b) {
  double best = 0.0;
  for (std::size_t i = 0; i < a.outline.size(); ++i)
    for (std::size_t k = 0; k < b.outline.size(); ++k) {
      const Vec3 p = a.placement.at(a.outline[i]), q = a.placement.at(a.outline[(i + 1) % a.outline.size()]);
      const Vec3 r = b.placement.at(b.outline[k]), s = b.placement.at(b.outline[(k + 1) % b.outline.size()]);
      if (norm(p - s) < 1e-9 && norm(q - r) < 1e-9) best = norm(q - p);
    }
  return best;
}

std::vector<double> setbacks(const Box& box, const std::string& id) {
  return face(box, id).setback_mm;
}

using Numbers = std::vector<double>;
using Words = std::vector<std::string>;

} // namespace

TEST_CASE("gear locker: four corner seams of 299 mm, from the rim to the middle surface of the back") {
  const Job job = sample("gear-locker.xml");
  REQUIRE(job.boxes.size() == 1);
  const Box& box = job.boxes[0];
  CHECK(box.count == 3);
  CHECK(box.form == BoxForm::open_box);
  CHECK(box.construction == Construction::folded);
  CHECK(box.open_side == "F");
  CHECK(box.width == mm(400));
  CHECK(box.parts.size() == 1);
  CHECK(box.parts[0].bends.size() == 4);
  for (const Bend& bend : box.parts[0].bends) {
    CHECK(box.faces[bend.face_a].id == "B");
    CHECK(bend.inside_radius == mm(2));
  }
  CHECK(seams_of(box) == "S1:T-L S2:T-R S3:U-R S4:U-L");
  CHECK(covers(box) == "T T U U");
  for (const Seam& s : box.seams) {
    CHECK(shared_edge_mm(box.faces[s.face_a], box.faces[s.face_b]) == Approx(300.0 - 1.0).epsilon(1e-12));
    CHECK(s.finish == Finish::flush);
    CHECK(s.weld == WeldKind::square);
    CHECK(s.side == WeldSide::outside);
    CHECK(s.corner == CornerStyle::half_open);
    CHECK(s.procedure == 0u);
  }
  // Corners of the top, h = 1: front rim at y 0, back at the middle surface y 299, z 599.
  CHECK(corners(face(box, "T")) == Words{"1,0,599", "399,0,599", "399,299,599", "1,299,599"});
  CHECK(corners(face(box, "L")) == Words{"1,299,1", "1,0,1", "1,0,599", "1,299,599"});
  CHECK(corners(face(box, "B")) == Words{"399,299,1", "1,299,1", "1,299,599", "399,299,599"});
  // T and U cover: their edges end on the middle surfaces of L and R; those stop at the inner surfaces, h
  // further in.
  CHECK(setbacks(box, "T") == Numbers{0, 0, 0, 0});
  CHECK(setbacks(box, "L") == Numbers{1, 0, 1, 0});
  CHECK(setbacks(box, "B") == Numbers{0, 0, 0, 0});
  CHECK(job.limits.size_under == mm(3));
}

TEST_CASE("ballast float: twelve seams, four of each middle-surface size") {
  const Job job = sample("ballast-float.xml");
  const Box& box = job.boxes[0];
  CHECK(box.form == BoxForm::closed_box);
  CHECK(box.parts.size() == 6);
  CHECK(box.last_face == "T");
  CHECK(seams_of(box) ==
        "S1:B-L S2:B-R S3:F-R S4:F-L S5:U-B S6:U-R S7:U-F S8:U-L S9:T-B S10:T-R S11:T-F S12:T-L");
  std::map<double, int> lengths;
  for (const Seam& s : box.seams)
    ++lengths[round_to(shared_edge_mm(box.faces[s.face_a], box.faces[s.face_b]), 1e-6)];
  // 600 x 400 x 300 less one thickness of 3.
  CHECK(lengths == std::map<double, int>{{297, 4}, {397, 4}, {597, 4}});
  CHECK(setbacks(box, "T") == Numbers{0, 0, 0, 0});
  CHECK(setbacks(box, "F") == Numbers{1.5, 0, 1.5, 0});
  CHECK(setbacks(box, "L") == Numbers{1.5, 1.5, 1.5, 1.5});
  REQUIRE(box.vents.size() == 1);
  CHECK(box.vents[0].diameter == mm(8));
  CHECK(box.vents[0].plugged_last);
  CHECK(job.procedures[0].full_penetration);
}

TEST_CASE("battery box: five panels, eight seams, a loose lid, four vent holes") {
  const Job job = sample("battery-box.xml");
  const Box& box = job.boxes[0];
  CHECK(seams_of(box) == "S1:B-L S2:B-R S3:F-R S4:F-L S5:U-B S6:U-R S7:U-F S8:U-L");
  // Uprights from the middle of the under side to the rim: 280 - 1; base seams 450 - 2 and 250 - 2.
  const double expected[] = {279, 279, 279, 279, 448, 248, 448, 248};
  for (std::size_t i = 0; i < 8; ++i)
    CHECK(shared_edge_mm(box.faces[box.seams[i].face_a], box.faces[box.seams[i].face_b]) ==
          Approx(expected[i]).epsilon(1e-12));
  CHECK(box.parts.back().id == "lid");
  CHECK(box.parts.back().loose);
  // The lid lies on the rim at z 280: its middle is 1 mm higher. 4 mm overhang all round.
  CHECK(corners(face(box, "lid")) == Words{"-4,-4,281", "454,-4,281", "454,254,281", "-4,254,281"});
  CHECK(face(box, "L").cutouts.size() == 2);
  CHECK(face(box, "R").cutouts.size() == 2);
  // From the left looking at L from outside, that is from the back.
  const Vec3 centre = face(box, "L").placement.at({85, 245});
  CHECK(centre.x == 1);
  CHECK(centre.y == 165);
  CHECK(centre.z == 245);
}

TEST_CASE("divided tray: four corners, four mitres, two dividers of three T seams") {
  const Job job = sample("divided-tray.xml");
  const Box& box = job.boxes[0];
  CHECK(seams_of(box) ==
        "S1:B-L S2:B-R S3:F-R S4:F-L S5:L-lip-B-lip S6:B-lip-R-lip S7:R-lip-F-lip S8:F-lip-L-lip "
        "S9:D1-U S10:D1-B S11:D1-F S12:D2-U S13:D2-B S14:D2-F");
  CHECK(box.parts.size() == 3);
  CHECK(box.parts[2].id == "body"); // after D1 and D2
  CHECK(box.parts[2].bends.size() == 8);
  // Walls from the middle of the base, 1.5, to the middle of the lip, 150 - 1.5.
  for (std::size_t i = 0; i < 4; ++i)
    CHECK(shared_edge_mm(box.faces[box.seams[i].face_a], box.faces[box.seams[i].face_b]) ==
          Approx(147.0).epsilon(1e-12));
  // Lips of 25 outside are 23.5 on the middle surface; the mitre is sqrt 2 times that: 33.234 mm.
  for (std::size_t i = 4; i < 8; ++i)
    CHECK(shared_edge_mm(box.faces[box.seams[i].face_a], box.faces[box.seams[i].face_b]) ==
          Approx(33.23401871576773).epsilon(1e-12));
  CHECK(corners(face(box, "F-lip")) ==
        Words{"-22,-22,148.5", "622,-22,148.5", "598.5,1.5,148.5", "1.5,1.5,148.5"});
  // Divider: from wall to wall 400 - 3; up to 3 + 110; edges stop at the inner surfaces, 1.5 from the middle
  // ones.
  CHECK(corners(face(box, "D1")) == Words{"200,1.5,1.5", "200,398.5,1.5", "200,398.5,113", "200,1.5,113"});
  CHECK(setbacks(box, "D1") == Numbers{1.5, 1.5, 0, 1.5});
  const Seam& tee = box.seams[8];
  CHECK(tee.joint == JointKind::tee);
  CHECK(tee.weld == WeldKind::fillet);
  CHECK(tee.leg == mm(4));
  CHECK(tee.side == WeldSide::inside);
  CHECK(tee.finish == Finish::left);
  REQUIRE(tee.stitch);
  CHECK(tee.stitch->length == mm(25));
  CHECK(tee.stitch->pitch == mm(75));
  CHECK(job.procedures[*tee.procedure].id == "fillet-mig");
}

TEST_CASE("setbacks of the three corner styles, and who covers whom") {
  const std::string size = "width=\"100 mm\" depth=\"100 mm\" height=\"100 mm\"";
  const auto closed = [&](const std::string& rest, const std::string& attributes = "") {
    return box_of("<closed-box " + size + " " + rest + "/>", attributes).boxes[0];
  };
  // Open corner: both stop at the other's inner surface.
  const Box open = closed("corner=\"open-corner\"");
  for (const char* id : {"F", "B", "L", "R", "U", "T"})
    CHECK(setbacks(open, id) == Numbers{1, 1, 1, 1});
  CHECK(covers(open) == "- - - - - - - - - - - -");
  // Lapped: the one that covers ends at the other's outer surface.
  const Box lapped = closed("corner=\"lapped-corner\"");
  CHECK(setbacks(lapped, "T") == Numbers{-1, -1, -1, -1});
  CHECK(setbacks(lapped, "F") == Numbers{1, -1, 1, -1});
  CHECK(setbacks(lapped, "R") == Numbers{1, 1, 1, 1});
  // The stated ones come first, then the last face, T and U, F and B, L and R.
  CHECK(covers(closed("")) == "B B F F U U U U T T T T");
  CHECK(covers(closed("", " last-face=\"R\"")) == "B R R F U R U U T R T T");
  CHECK(covers(closed("over=\"L F\"")) == "L B F L U U F L T T F L");
  CHECK(covers(closed("over=\"F L\"")) == "L B F F U U F L T T F L");
}

TEST_CASE("every half-open corner is closed: setbacks of the two edges add up to half a thickness") {
  for (const char* over : {"", "over=\"L\"", "over=\"R F\"", "over=\"F B L R\""}) {
    const Box box =
        box_of(std::string("<closed-box width=\"100 mm\" depth=\"90 mm\" height=\"80 mm\" ") + over + "/>")
            .boxes[0];
    double sum = 0.0;
    for (const Face& f : box.faces)
      for (const double s : f.setback_mm)
        sum += s;
    CHECK(sum == 12 * 1.0);
  }
}

TEST_CASE("inside sizes add two thicknesses, one where the box is open") {
  const std::string size = "width=\"100 mm\" depth=\"90 mm\" height=\"80 mm\" sizes=\"inside\" ";
  const auto sizes = [](const Box& b) { return Numbers{in_mm(*b.width), in_mm(*b.depth), in_mm(*b.height)}; };
  CHECK(sizes(box_of("<closed-box " + size + "/>").boxes[0]) == Numbers{104, 94, 84});
  CHECK(sizes(box_of("<open-box open=\"front\" made=\"panels\" " + size + "/>").boxes[0]) ==
        Numbers{104, 92, 84});
  CHECK(sizes(box_of("<open-box open=\"top\" made=\"panels\" " + size + "/>").boxes[0]) ==
        Numbers{104, 94, 82});
}

TEST_CASE("the numbers of seams do not hang on the order in which dividers stand in the file") {
  const std::string tray = "<open-box width=\"400 mm\" depth=\"300 mm\" height=\"100 mm\" open=\"top\" "
                           "made=\"folded\" inside-radius=\"2 mm\"/>";
  const std::string a = "<divider id=\"D1\" across=\"width\" at=\"100 mm\" height=\"50 mm\" leg=\"3 mm\"/>";
  const std::string b = "<divider id=\"D2\" across=\"width\" at=\"200 mm\" height=\"50 mm\" leg=\"3 mm\"/>";
  CHECK(seams_of(box_of(tray + a + b).boxes[0]) == seams_of(box_of(b + a + tray).boxes[0]));
}

TEST_CASE("dividers and shelves stand on the side opposite to the opening") {
  const std::string locker = "<open-box width=\"400 mm\" depth=\"300 mm\" height=\"600 mm\" open=\"front\" "
                             "made=\"folded\" inside-radius=\"2 mm\"/>";
  const Box shelf =
      box_of(locker + "<divider id=\"D1\" across=\"height\" at=\"250 mm\" height=\"200 mm\" leg=\"2 mm\"/>")
          .boxes[0];
  CHECK(seams_of(shelf) == "S1:T-L S2:T-R S3:U-R S4:U-L S5:D1-B S6:D1-R S7:D1-L");
  // 200 deep from the inside of the back, y 298, to y 98.
  CHECK(corners(face(shelf, "D1")) == Words{"1,98,250", "399,98,250", "399,299,250", "1,299,250"});
  CHECK(setbacks(shelf, "D1") == Numbers{0, 1, 1, 1});
  const Box upright =
      box_of(locker + "<divider id=\"D1\" across=\"width\" at=\"150 mm\" height=\"298 mm\" leg=\"2 mm\"/>")
          .boxes[0];
  CHECK(seams_of(upright) == "S1:T-L S2:T-R S3:U-R S4:U-L S5:D1-B S6:D1-U S7:D1-T");
  CHECK(corners(face(upright, "D1")) == Words{"150,0,1", "150,299,1", "150,299,599", "150,0,599"});
}

TEST_CASE("an inward flange of a front: lips lie in the opening") {
  const Box box = box_of("<open-box width=\"400 mm\" depth=\"300 mm\" height=\"600 mm\" open=\"front\" "
                         "made=\"folded\" inside-radius=\"2 mm\"/><flange width=\"20 mm\" turned=\"in\" "
                         "inside-radius=\"2 mm\"/><lid overhang=\"0 mm\"/>")
                      .boxes[0];
  CHECK(corners(face(box, "U-lip")) == Words{"1,1,1", "399,1,1", "380,1,20", "20,1,20"});
  CHECK(corners(face(box, "T")) == Words{"1,1,599", "399,1,599", "399,299,599", "1,299,599"});
  CHECK(seams_of(box).find("S5:L-lip-T-lip S6:T-lip-R-lip S7:R-lip-U-lip S8:U-lip-L-lip") !=
        std::string::npos);
  CHECK(corners(face(box, "lid"))[0] == "0,-1,0");
}

TEST_CASE("every outline runs counter-clockwise and every normal points away from the middle of the box") {
  for (const char* name : {"gear-locker.xml", "ballast-float.xml", "battery-box.xml"}) {
    const Box box = sample(name).boxes[0];
    const Vec3 middle{in_mm(*box.width) / 2, in_mm(*box.depth) / 2, in_mm(*box.height) / 2};
    for (const Face& f : box.faces) {
      INFO(name << " " << f.id);
      double twice = 0.0;
      for (std::size_t i = 0; i < f.outline.size(); ++i)
        twice += cross(f.outline[i], f.outline[(i + 1) % f.outline.size()]);
      CHECK(twice > 0.0);
      CHECK(dot(f.placement.normal(), f.placement.at(f.outline[0]) - middle) > 0.0);
    }
  }
}

TEST_CASE("a round hole has the area of its circle") {
  const auto ring = round_hole({50, 40}, mm(25));
  double twice = 0.0;
  Vec2 sum;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    twice += cross(ring[i], ring[(i + 1) % ring.size()]);
    sum = sum + ring[i];
  }
  CHECK(twice / 2.0 == Approx(kPi * 12.5 * 12.5).epsilon(1e-12));
  CHECK(sum.x / 32.0 == Approx(50.0));
  CHECK(sum.y / 32.0 == Approx(40.0));
}
