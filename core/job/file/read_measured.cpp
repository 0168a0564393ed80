// What was measured on parts and boxes.
#include "base/numbers.h"
#include "job/file/check_opening.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace tacksquare {

namespace {

constexpr double kOddThickness = 0.2; // of the sheet's
constexpr double kFarSize = 0.05;     // of the stated size

template <class T> Ids ids_of(std::string kind, const std::vector<T>& items) {
  Ids ids(std::move(kind));
  Diagnostics ignored; // twins are reported by the box
  for (std::size_t i = 0; i < items.size(); ++i)
    ids.add(items[i].id, i, items[i].where, ignored);
  return ids;
}

bool keeps_width(const Job& job, std::size_t box, int copy) {
  if (!job.opening) return true;
  const auto& row = job.opening->row;
  const auto stand =
      std::find_if(row.begin(), row.end(), [&](const RowPlace& s) { return s.box == box && s.copy == copy; });
  return stand == row.end() || stand->keep_size;
}

// What a box has by id.
struct BoxIds {
  explicit BoxIds(const Box& box)
      : faces(ids_of("face", box.faces)), seams(ids_of("seam", box.seams)), parts(ids_of("part", box.parts)) {
  }
  Ids faces, seams, parts;
};

// The readings of one copy.
class Copy {
 public:
  // box and ids: null where nothing is to be told of what does not fit it, since it has faults itself.
  // as_stated: it keeps the width that it is stated with, and is not made to suit an opening.
  Copy(MeasuredBox& into, const Box* box, const BoxIds* ids, bool as_stated, const Known& known,
       const Job& job)
      : into_(into), box_(box), ids_(ids), as_stated_(as_stated), known_(known), job_(job) {}

  void read_lean(Element e) {
    WallLeanReading r;
    r.where = e.where();
    const auto face = named(e, "face", "L", &BoxIds::faces);
    r.one = need(e, "one", "1.5 mm", ranges::reading);
    r.other = need(e, "other", "2 mm", ranges::reading);
    end(e);
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
    if (box_->faces[*a].part == box_->faces[*b].part) {
      e.out().error("stack-parts", e.where("faces"), "faces of one part cannot be laid on each other",
                    "name the faces of two panels, such as \"L R\"");
      return;
    }
    r.face_a = std::min(*a, *b);
    r.face_b = std::max(*a, *b);
    if (first(e, "stack " + std::to_string(r.face_a) + " " + std::to_string(r.face_b), "this pair"))
      into_.stacks.push_back(r);
  }

  void read_sizes(Element e) {
    SizeReading r;
    r.where = e.where();
    e.require("stage", "ground");
    const auto stage = e.choice("stage", words::stages);
    const auto sizes = [&](std::string_view name, std::optional<Length> stated, std::vector<Length>& all) {
      const auto said = e.list_with_places(name, {1, 9}, parse_length, ranges::outside);
      if (!said) return;
      for (const Said<Length>& reading : *said)
        all.push_back(reading.value);
      if (box_ && stated)
        for (const Said<Length>& reading : *said)
          check_size(e, reading, *stated);
      else
        check_alike(*said, "size", Severity::error, e.out());
    };
    sizes("widths", box_ && as_stated_ ? box_->width : std::nullopt, r.widths);
    sizes("heights", box_ ? box_->height : std::nullopt, r.heights);
    sizes("depths", box_ ? box_->depth : std::nullopt, r.depths);
    for (const auto& [name, into] : {std::pair("diagonal-up-right", &r.diagonal_up_right),
                                     std::pair("diagonal-up-left", &r.diagonal_up_left)}) {
      *into = e.quantity(name, parse_length, ranges::diagonal);
      const auto stated = opening_diagonal();
      if (*into && stated) check_size(e, {**into, e.where(name)}, *stated);
    }
    if (!e.has("widths") && !e.has("heights") && !e.has("depths") && !e.has("diagonal-up-right") &&
        !e.has("diagonal-up-left"))
      nothing(e, "widths=\"400.1 mm, 400.3 mm, 400 mm\", up to nine");
    end(e);
    if (!stage || !first(e, "sizes " + word_of(words::stages, *stage), "this stage")) return;
    r.stage = *stage;
    into_.sizes.push_back(std::move(r));
  }

 private:
  Length need(Element& e, std::string_view name, std::string_view example, Range<Length> range) {
    e.require(name, example);
    return e.quantity(name, parse_length, range).value_or(mm(0));
  }

  std::optional<std::size_t> named(Element& e, std::string_view name, std::string_view example,
                                   Ids BoxIds::*kind) {
    e.require(name, example);
    const auto said = e.text(name);
    if (!said || !box_) return {};
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

  void check_size(Element& e, const Said<Length>& reading, Length stated) {
    const double off = reading.value / stated - 1.0;
    if (std::abs(off) <= kFarSize) return;
    e.out().error("size-far", reading.where,
                  "this size is " + fixed(100.0 * std::abs(off), 1) + " % " + (off < 0.0 ? "less" : "more") +
                      " than the box has, " + shortest(round_to(in_mm(stated), 0.1)) + " mm",
                  "a slip of the tape or the pen? Measure again");
  }

  std::optional<Length> opening_diagonal() const {
    if (!box_ || !as_stated_ || box_->open_side.empty()) return {};
    const auto across = box_->open_side == "T" ? box_->depth : box_->height;
    if (!box_->width || !across) return {};
    return mm(std::hypot(in_mm(*box_->width), in_mm(*across)));
  }

  MeasuredBox& into_;
  const Box* box_;
  const BoxIds* ids_;
  bool as_stated_;
  const Known& known_;
  const Job& job_;
  std::map<std::string, Origin> seen_;
};

// All of them; a copy is measured once.
class MeasuredBoxes {
 public:
  MeasuredBoxes(const Known& known, Job& job) : known_(known), job_(job) {}

  void read(Element e) {
    MeasuredBox m;
    m.where = e.where();
    const auto box = read_box_ref(e, known_, job_);
    const auto copy = read_copy(e, box, job_);
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
    Copy readings(m, box ? &job_.boxes[*box] : nullptr, box ? &ids_of_box(*box) : nullptr,
                  box && copy && keeps_width(job_, *box, *copy), known_, job_);
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
    e.allow({"wall-lean", "fit", "blank", "thickness", "stack", "sizes"});
    e.finish();
  }

  const BoxIds& ids_of_box(std::size_t box) { return ids_.try_emplace(box, job_.boxes[box]).first->second; }

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
