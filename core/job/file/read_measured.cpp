// What was measured on parts and boxes.
#include "base/numbers.h"
#include "job/file/check_measured.h"
#include "job/file/check_opening.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"
#include "job/panels.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace tacksquare {

namespace {

constexpr double kOddThickness = 0.2;  // of the sheet's
constexpr std::size_t kFewFaces = 100; // among more no pairs are looked for

// Whether the copy is made to suit the opening; nothing where it does not stand in it.
std::optional<bool> gives_way(const Job& job, std::size_t box, int copy) {
  if (!job.opening) return {};
  const auto& row = job.opening->row;
  const auto stand =
      std::find_if(row.begin(), row.end(), [&](const RowPlace& s) { return s.box == box && s.copy == copy; });
  if (stand == row.end()) return {};
  return !stand->keep_size;
}

// What a box has by id. Seams: only where they were read without a fault.
struct BoxIds {
  BoxIds(const Box& box, bool sure)
      : faces(ids_of("face", box.faces)), seams(ids_of("seam", box.seams)), parts(ids_of("part", box.parts)),
        bases(base_faces(box)), sure_of_seams(sure) {}
  Ids faces, seams, parts;
  std::vector<std::optional<std::size_t>> bases;
  bool sure_of_seams;
};

// The readings of one copy.
class Copy {
 public:
  // box and ids: null where nothing is to be told of what does not fit it, since it has faults itself.
  // suited: its width is made to suit an opening.
  Copy(MeasuredBox& into, const Box* box, const BoxIds* ids, bool suited, const Known& known, const Job& job)
      : into_(into), box_(box), ids_(ids), suited_(suited), known_(known), job_(job) {}

  void read_lean(Element e) {
    WallLeanReading r;
    r.where = e.where();
    const auto face = named(e, "face", "L", &BoxIds::faces);
    r.one = need(e, "one", "1.5 mm", ranges::reading);
    r.other = need(e, "other", "2 mm", ranges::reading);
    end(e);
    if (face) check_leans(e, *face);
    if (!face || !first(e, "lean " + std::to_string(*face), "this wall's lean")) return;
    r.face = *face;
    into_.leans.push_back(r);
  }

  void read_fit(Element e) {
    FitReading r;
    r.where = e.where();
    const auto seam = named(e, "seam", "S1", &BoxIds::seams);
    r.gaps = e.list("gaps", 3, parse_length, ranges::limit).value_or(r.gaps);
    r.steps = e.list("steps", 3, parse_length, ranges::reading).value_or(r.steps);
    if (!e.has("gaps") && !e.has("steps"))
      nothing(e, "gaps=\"0.2 mm, 0.5 mm, 0.3 mm\", from 0 mm of the seam on: one end, middle, other end");
    end(e);
    if (!seam || !first(e, "fit " + std::to_string(*seam), "this seam's fit")) return;
    r.seam = *seam;
    into_.fits.push_back(std::move(r));
  }

  void read_blank(Element e) {
    BlankReading r;
    r.where = e.where();
    const auto part = named(e, "part", "body", &BoxIds::parts);
    r.length_off = e.quantity("length-off", parse_length, ranges::reading);
    r.width_off = e.quantity("width-off", parse_length, ranges::reading);
    if (!e.has("length-off") && !e.has("width-off"))
      nothing(e, "length-off=\"0.2 mm\", positive where it is larger than ordered");
    end(e);
    if (!part || !first(e, "blank " + std::to_string(*part), "this part's blank")) return;
    r.part = *part;
    into_.blanks.push_back(r);
  }

  void read_thickness(Element e) {
    ThicknessReading r;
    r.where = e.where();
    const auto sheet = read_sheet_ref(e, known_, job_);
    r.is = need(e, "is", "1.95 mm", ranges::thickness);
    end(e);
    if (!sheet || r.is == mm(0)) return;
    r.sheet = *sheet;
    if (box_ && std::none_of(box_->parts.begin(), box_->parts.end(),
                             [&](const Part& part) { return part.sheet == *sheet; }))
      e.out().error("sheet-elsewhere", e.where("sheet"),
                    "box " + quoted(box_->id) + " has no part of sheet " + quoted(job_.sheets[*sheet].id),
                    "name the sheet of a part of this box");
    const double stated = in_mm(job_.sheets[*sheet].thickness), is = in_mm(r.is);
    if (known_.sure_of_sheets && std::abs(is - stated) > kOddThickness * stated)
      e.out().caution("measured-odd", e.where("is"),
                      "the measured thickness is more than a fifth off the " +
                          shortest(round_to(stated, 0.01)) + " mm of the sheet",
                      "measure again, or correct the sheet");
    if (first(e, "thickness " + std::to_string(*sheet), "this sheet's thickness"))
      into_.thicknesses.push_back(r);
  }

  void read_stack(Element e) {
    StackReading r;
    r.where = e.where();
    e.require("faces", "L R");
    const auto names = e.words("faces");
    r.off = need(e, "off", "0.2 mm", ranges::limit);
    end(e);
    if (e.has("faces") && names.size() != 2)
      e.out().error("two-faces", e.where("faces"), "two faces are laid on each other",
                    "for example faces=\"L R\"");
    if (!box_ || names.size() != 2) return;
    const auto a = ids_->faces.find(names[0], e.out()), b = ids_->faces.find(names[1], e.out());
    if (!a || !b) return;
    check_pair(e, *a, *b);
    r.face_a = std::min(*a, *b);
    r.face_b = std::max(*a, *b);
    if (first(e, "stack " + std::to_string(r.face_a) + " " + std::to_string(r.face_b), "this pair"))
      into_.stacks.push_back(r);
  }

  void read_sizes(Element e) {
    SizeReading r;
    r.where = e.where();
    SizesSaid said;
    e.require("stage", "ground");
    said.stage = e.choice("stage", words::stages);
    bool any = false;
    const std::array into = {&r.widths, &r.heights, &r.depths};
    for (std::size_t i = 0; i < into.size(); ++i) {
      any = e.has(kSizeNames[i]) || any;
      said.sizes[i] = e.readings(kSizeNames[i], {1, 9}, parse_length, ranges::outside);
      for (const Said<Length>& reading : said.sizes[i])
        into[i]->push_back(reading.value);
    }
    const auto diagonal = [&](std::string_view name,
                              std::optional<Length>& to) -> std::optional<Said<Length>> {
      any = e.has(name) || any;
      to = e.quantity(name, parse_length, ranges::diagonal);
      if (!to) return {};
      return Said<Length>{*to, e.where(name)};
    };
    said.up_right = diagonal("diagonal-up-right", r.diagonal_up_right);
    said.up_left = diagonal("diagonal-up-left", r.diagonal_up_left);
    if (!any) nothing(e, "widths=\"400.1 mm, 400.3 mm, 400 mm\", up to nine");
    end(e);
    const bool likely = check_sizes(said, box_, suited_, job_.limits.size_under, e.out());
    if (!said.stage || !first(e, "sizes " + word_of(words::stages, *said.stage), "this stage")) return;
    r.stage = *said.stage;
    into_.sizes.push_back(std::move(r));
    if (likely) said_.push_back(std::move(said));
  }

  // When all readings are taken.
  void finish(Diagnostics& out) const { check_stages(said_, out); }

 private:
  Length need(Element& e, std::string_view name, std::string_view example, Range<Length> range) {
    e.require(name, example);
    return e.quantity(name, parse_length, range).value_or(mm(0));
  }

  std::optional<std::size_t> named(Element& e, std::string_view name, std::string_view example,
                                   Ids BoxIds::*kind) {
    e.require(name, example);
    const auto said = e.text(name);
    if (!said || !box_ || (kind == &BoxIds::seams && !ids_->sure_of_seams)) return {};
    return (ids_->*kind).find(Word{*said, e.where(name)}, e.out());
  }

  void nothing(Element& e, const std::string& example) {
    e.out().error("attribute-missing", e.where(), e.tag() + " states nothing", "add " + example);
  }

  void end(Element& e) {
    e.allow({});
    e.finish();
  }

  // False, and reported, when the same was read before.
  bool first(Element& e, const std::string& what, const std::string& called) {
    const auto [found, added] = seen_.try_emplace(what, e.where());
    if (!added)
      e.out().error("reading-twice", e.where(), called + " is read already for this copy",
                    "keep the reading that counts", Note{"the first one", found->second});
    return added;
  }

  // Only what a bend turns leans.
  void check_leans(const Element& e, std::size_t face) {
    const std::size_t part = box_->faces[face].part;
    const std::string id = quoted(box_->faces[face].id);
    if (box_->parts[part].bends.empty()) {
      e.out().error("lean-flat", e.where("face"), "face " + id + " is a flat panel: no bend makes it lean",
                    "delete this reading; what the panel's seams gape goes into <fit>");
    } else if (ids_->bases[part] == face) {
      std::vector<std::string> walls;
      for (const Face& other : box_->faces)
        if (other.part == part && other.id != box_->faces[face].id) walls.push_back(other.id);
      e.out().error("lean-base", e.where("face"),
                    "face " + id + " is the one that the walls of its part are bent up from: it has no lean",
                    "read the walls; " + suggestion("", walls));
    }
  }

  void check_pair(const Element& e, std::size_t a, std::size_t b) {
    const auto& faces = box_->faces;
    if (faces[a].part == faces[b].part) {
      e.out().error("stack-parts", e.where("faces"), "faces of one part cannot be laid on each other",
                    pairs());
    } else if (!opposite_panels(*box_, a, b)) {
      e.out().error("stack-odd", e.where("faces"),
                    "faces " + quoted(faces[a].id) + " and " + quoted(faces[b].id) +
                        " are not two flat panels that lie opposite each other and are of one size",
                    pairs());
    }
  }

  // Which faces can be laid on each other.
  std::string pairs() const {
    std::string all;
    const auto& faces = box_->faces;
    for (std::size_t a = 0; faces.size() <= kFewFaces && a < faces.size(); ++a)
      for (std::size_t b = a + 1; b < faces.size(); ++b)
        if (opposite_panels(*box_, a, b))
          all += (all.empty() ? "" : ", ") + quoted(faces[a].id + " " + faces[b].id);
    return all.empty() ? "this box has no two panels to lay on each other: delete this reading"
                       : "panels of this box that can be: " + all;
  }

  MeasuredBox& into_;
  const Box* box_;
  const BoxIds* ids_;
  bool suited_;
  const Known& known_;
  const Job& job_;
  std::map<std::string, Origin> seen_;
  std::vector<SizesSaid> said_;
};

// All of them; a copy is measured once.
class MeasuredBoxes {
 public:
  MeasuredBoxes(const Known& known, Job& job) : known_(known), job_(job) {}

  void read(Element e) {
    MeasuredBox m;
    m.where = e.where();
    const auto box = read_box_ref(e, known_, job_);
    const auto copy = read_copy(e, box, known_, job_);
    if (box && copy) check_stands(e, *box, *copy);
    read_all(e, m, box, copy);
    if (!box || !copy) return;
    m.box = *box;
    m.copy = *copy;
    const auto [first, added] = places_.try_emplace({m.box, m.copy}, m.where);
    if (!added)
      e.out().error("measured-twice", e.where(),
                    "copy " + std::to_string(m.copy) + " of box " + quoted(job_.boxes[m.box].id) +
                        " is measured already",
                    "put all readings of a copy into one <measured>", Note{"the first one", first->second});
    job_.measured.push_back(std::move(m));
  }

 private:
  void read_all(Element& e, MeasuredBox& m, std::optional<std::size_t> box, std::optional<int> copy) {
    const bool sure = box && known_.sure_boxes.count(*box) == 1;
    Copy readings(m, sure ? &job_.boxes[*box] : nullptr, sure ? &ids_of_box(*box) : nullptr,
                  box && copy && gives_way(job_, *box, *copy).value_or(false), known_, job_);
    bool any = false;
    const auto each = [&](std::string_view tag, void (Copy::*taking)(Element)) {
      for (const Element& child : e.children(tag)) {
        (readings.*taking)(child);
        any = true;
      }
    };
    each("wall-lean", &Copy::read_lean);
    each("fit", &Copy::read_fit);
    each("blank", &Copy::read_blank);
    each("thickness", &Copy::read_thickness);
    each("stack", &Copy::read_stack);
    each("sizes", &Copy::read_sizes);
    if (!any)
      e.out().error("measured-empty", e.where(), "<measured> holds no reading",
                    "add <sizes stage=\"ground\" widths=\"400.1 mm\"/>, or delete it");
    readings.finish(e.out());
    e.allow({"wall-lean", "fit", "blank", "thickness", "stack", "sizes"});
    e.finish();
  }

  // A row in which other copies of this box stand, but not this one.
  void check_stands(Element& e, std::size_t box, int copy) const {
    if (!job_.opening || e.reading().errors() > 0 || gives_way(job_, box, copy)) return;
    const auto& row = job_.opening->row;
    const auto other =
        std::find_if(row.begin(), row.end(), [&](const RowPlace& stand) { return stand.box == box; });
    if (other == row.end()) return;
    e.out().caution("measured-elsewhere", e.where("copy"),
                    "copy " + std::to_string(copy) + " of box " + quoted(job_.boxes[box].id) +
                        " is measured and does not stand in the opening",
                    "correct the copy, or add its <stand>", Note{"a copy that stands in it", other->where});
  }

  const BoxIds& ids_of_box(std::size_t box) {
    return ids_.try_emplace(box, job_.boxes[box], known_.sure_seams.count(box) == 1).first->second;
  }

  const Known& known_;
  Job& job_;
  std::map<std::size_t, BoxIds> ids_;
  std::map<std::pair<std::size_t, int>, Origin> places_;
};

} // namespace

void read_measured(const std::vector<Element>& elements, const Known& known, Job& job) {
  MeasuredBoxes measured(known, job);
  for (const Element& e : elements)
    measured.read(e);
}

} // namespace tacksquare
