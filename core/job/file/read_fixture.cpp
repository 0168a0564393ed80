// What holds a box, stated in the job or in a file of its own.
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"

#include <algorithm>
#include <map>
#include <utility>

namespace tacksquare {

namespace {

std::vector<std::string_view> piece_tags() {
  std::vector<std::string_view> tags;
  for (const auto& [word, kind] : words::items)
    tags.push_back(word);
  return tags;
}

// What a fixture refers to by id. Seams: only where they were read without a fault.
struct HeldBox {
  HeldBox(const Box& box, bool sure)
      : faces(ids_of("face", box.faces, "box " + quoted(box.id))),
        seams(ids_of("seam", box.seams, "box " + quoted(box.id))), sure_of_seams(sure) {}
  Ids faces, seams;
  bool sure_of_seams;
};

// One piece from its element. box: null where nothing is to be told of what it does not have, since it has
// faults itself.
class PieceReader {
 public:
  PieceReader(Element e, const HeldBox* box) : e_(std::move(e)), box_(box) {}

  FixturePiece read(const std::string& id, ItemKind kind) {
    piece_.where = e_.where();
    piece_.id = id;
    piece_.kind = kind;
    switch (kind) {
    case ItemKind::support:
      read_support();
      break;
    case ItemKind::stop:
      read_stop();
      break;
    case ItemKind::hold_down:
      piece_.at = point("at");
      read_force();
      break;
    case ItemKind::bar_clamp:
      read_ends();
      read_force();
      break;
    case ItemKind::spreader:
      read_ends();
      read_until();
      break;
    case ItemKind::corner_clamp:
      read_corner();
      read_force();
      break;
    case ItemKind::square:
      read_corner();
      read_until();
      break;
    case ItemKind::former:
      read_former();
      read_until();
      break;
    case ItemKind::backing_bar:
      read_backing_bar();
      break;
    }
    e_.allow({});
    e_.finish();
    return std::move(piece_);
  }

 private:
  void read_support() {
    e_.require("at", "50 mm, 50 mm");
    if (const auto at = e_.list("at", 2, parse_length, ranges::place))
      piece_.at = {in_mm((*at)[0]), in_mm((*at)[1]), 0.0};
  }

  void read_stop() {
    piece_.at = point("at");
    e_.require("towards", "y");
    piece_.towards = e_.choice("towards", words::towards).value_or(Vec3{});
  }

  void read_ends() {
    const std::size_t before = e_.reading().errors();
    piece_.at = point("at");
    piece_.to = point("to");
    if (e_.reading().errors() == before && piece_.at == *piece_.to)
      e_.out().error("ends-same", e_.where("to"), e_.tag() + " ends where it begins",
                     "at and to are the places where its two ends touch the metal");
  }

  void read_corner() {
    e_.require("corner", "T L");
    const std::vector<Word> names = e_.words("corner");
    if (e_.has("corner") && !names.empty() && (names.size() != 2 || names[0].text == names[1].text))
      e_.out().error("corner-faces", e_.where("corner"), "a corner lies between two faces",
                     "for example corner=\"T L\"");
    for (const Word& name : names) {
      if (box_ != nullptr) box_->faces.find(name, e_.out());
      piece_.faces.push_back(name.text);
    }
    piece_.at = point("at");
    piece_.size = e_.quantity("size", parse_length, ranges::piece);
  }

  void read_former() {
    piece_.below = need("below", "40 mm", ranges::piece);
    piece_.width = need("width", "395.5 mm", ranges::piece);
    piece_.height = need("height", "595.5 mm", ranges::piece);
    piece_.clip = e_.quantity("clip", parse_length, ranges::clip);
    const Length least = std::min(*piece_.width, *piece_.height);
    if (piece_.clip && least > mm(0) && *piece_.clip * 2.0 >= least)
      e_.out().error("clip-large", e_.where("clip"),
                     "what is cut off at both corners is the whole side of the former",
                     "clip is less than half of the width and of the height");
  }

  void read_backing_bar() {
    e_.require("seam", "S1");
    if (const auto seam = e_.text("seam")) {
      if (box_ != nullptr && box_->sure_of_seams) box_->seams.find(Word{*seam, e_.where("seam")}, e_.out());
      piece_.seam = *seam;
    }
    const std::size_t before = e_.reading().errors();
    piece_.from_mm = in_mm(need("from", "0 mm", ranges::along_side));
    piece_.to_mm = in_mm(need("to", "299 mm", ranges::along_side));
    if (e_.reading().errors() == before && piece_.to_mm <= piece_.from_mm)
      e_.out().error("span-turned", e_.where("to"), "the backing bar ends where it has not begun",
                     "from and to count from the 0 mm of the seam: from is less than to");
    piece_.size = e_.quantity("width", parse_length, ranges::piece);
  }

  void read_until() {
    static const Words<bool> when = {{"tacked", true}, {"cold", false}};
    piece_.until_tacked = e_.choice("until", when).value_or(false);
  }

  void read_force() { piece_.force = e_.quantity("force", parse_force, ranges::press); }

  Length need(std::string_view name, std::string_view example, Range<Length> range) {
    e_.require(name, example);
    return e_.quantity(name, parse_length, range).value_or(mm(0));
  }

  Vec3 point(std::string_view name) {
    e_.require(name, "100 mm, 80 mm, 2 mm");
    const auto said = e_.list(name, 3, parse_length, ranges::place);
    if (!said) return {};
    return {in_mm((*said)[0]), in_mm((*said)[1]), in_mm((*said)[2])};
  }

  Element e_;
  const HeldBox* box_;
  FixturePiece piece_;
};

// Its attributes, but for which box it is, and its pieces.
void read_stated(Element& e, const HeldBox* box, Fixture& fixture) {
  fixture.where = e.where();
  fixture.name = e.seen_name().value_or("");
  const auto face = [&](std::string_view name, std::string_view example) {
    e.require(name, example);
    const auto said = e.text(name);
    if (said && box != nullptr && !(name == "down" && *said == "rim"))
      box->faces.find(Word{*said, e.where(name)}, e.out());
    return said.value_or("");
  };
  fixture.down = face("down", "B");
  fixture.long_side = face("long-side", "U");
  if (!fixture.down.empty() && fixture.down == fixture.long_side)
    e.out().error("fixture-sides", e.where("long-side"),
                  "the face that lies on the table cannot stand against the stops as well",
                  "long-side is a face that stands up from the table");

  std::vector<std::pair<Element, ItemKind>> pieces;
  for (const auto& [word, kind] : words::items)
    for (const Element& piece : e.children(word))
      pieces.emplace_back(piece, kind);
  std::sort(pieces.begin(), pieces.end(),
            [](const auto& a, const auto& b) { return a.first.where().before(b.first.where()); });
  Ids ids("piece");
  for (auto& [piece, kind] : pieces) {
    const std::string id = piece.id();
    if (!id.empty()) ids.add(id, fixture.pieces.size(), piece.where("id"), e.out());
    fixture.pieces.push_back(PieceReader(piece, box).read(id, kind));
  }
  e.allow(piece_tags());
}

class Fixtures {
 public:
  Fixtures(const Known& known, FurtherFiles& files, Job& job) : known_(known), files_(files), job_(job) {}

  void read(Element e) {
    Fixture fixture;
    const auto index = read_box_ref(e, known_, job_);
    const HeldBox* box = index && known_.sure_boxes.count(*index) == 1 ? &held(*index) : nullptr;
    if (e.has("file")) {
      check_alone(e);
      files_.read(e, kFixtureFile, [&](Element& root) {
        read_stated(root, box, fixture);
        root.finish();
      });
    } else {
      read_stated(e, box, fixture);
    }
    e.finish();
    if (!index) return;
    fixture.box = *index;
    const auto [first, added] = places_.try_emplace(*index, e.where());
    if (!added)
      e.out().error("fixture-twice", e.where(),
                    "box " + quoted(job_.boxes[*index].id) + " has a fixture already",
                    "keep the one that it is built in", Note{"the first one", first->second});
    job_.fixtures.push_back(std::move(fixture));
  }

 private:
  // What a file holds stands nowhere else.
  static void check_alone(Element& e) {
    bool beside = false;
    for (const char* name : {"name", "down", "long-side"})
      beside = e.has(name) || beside;
    for (const std::string_view tag : piece_tags())
      beside = beside || !e.children(tag).empty();
    if (beside)
      e.out().error("fixture-both", e.where("file"), "this fixture is stated in a file and here as well",
                    "delete the file, or name, down, long-side and pieces that stand here");
    e.allow(piece_tags());
  }

  const HeldBox& held(std::size_t box) {
    return held_.try_emplace(box, job_.boxes[box], known_.sure_seams.count(box) == 1).first->second;
  }

  const Known& known_;
  FurtherFiles& files_;
  Job& job_;
  std::map<std::size_t, HeldBox> held_;
  std::map<std::size_t, Origin> places_;
};

} // namespace

void read_fixtures(const std::vector<Element>& elements, const Known& known, FurtherFiles& files, Job& job) {
  Fixtures fixtures(known, files, job);
  for (const Element& e : elements)
    fixtures.read(e);
}

} // namespace tacksquare
