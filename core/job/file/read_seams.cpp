// Seams: of one's own, and changes to those of a form.
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"

#include <algorithm>

namespace tacksquare {

void read_seam_style(Element& e, const Known& known, Seam& seam) {
  if (const auto weld = e.choice("weld", words::welds)) {
    if (*weld != WeldKind::fillet) seam.leg.reset();
    if (*weld != WeldKind::vee) seam.groove.reset();
    seam.weld = *weld;
  }
  if (const auto leg = e.quantity("leg", parse_length, ranges::leg)) seam.leg = leg;
  if (const auto groove = e.quantity("groove-angle", parse_angle, ranges::groove)) seam.groove = groove;
  seam.side = e.choice("side", words::sides).value_or(seam.side);
  seam.finish = e.choice("finish", words::finishes).value_or(seam.finish);
  if (e.yes_or_no("continuous").value_or(false)) seam.stitch.reset();
  const auto length = e.quantity("stitch-length", parse_length, ranges::run);
  const auto pitch = e.quantity("stitch-pitch", parse_length, ranges::run);
  if (length && pitch) {
    seam.stitch = Stitch{*length, *pitch};
  } else if (e.has("stitch-length") != e.has("stitch-pitch")) {
    e.out().error("stitch-half", e.where(),
                  "a stitch has a length and a pitch, and one of them is not stated",
                  "for example stitch-length=\"25 mm\" stitch-pitch=\"100 mm\"");
  }
  if (seam.stitch && seam.stitch->pitch <= seam.stitch->length)
    e.out().error("stitch-pitch", e.where("stitch-pitch"), "the stitch pitch is not longer than a stitch",
                  "the pitch counts from middle to middle; continuous=\"yes\" welds all of it");
  if (const auto said = e.text("procedure"))
    seam.procedure = known.procedures.find(Word{*said, e.where("procedure")}, e.out());
  if (const auto position = e.choice("position", words::positions)) seam.position = position;
}

void check_seam(const Seam& seam, Diagnostics& out) {
  if (seam.weld == WeldKind::fillet && !seam.leg)
    out.error("leg-missing", seam.where, "a fillet does not state its leg", "add leg=\"3 mm\"");
  if (seam.weld != WeldKind::fillet && seam.leg)
    out.error("leg-odd", seam.where, "a leg is stated for a weld that is no fillet",
              "weld=\"fillet\", or delete the leg");
  if (seam.weld == WeldKind::vee && !seam.groove)
    out.error("groove-missing", seam.where, "a V weld does not state its angle",
              "add groove-angle=\"60 deg\"");
  if (seam.weld != WeldKind::vee && seam.groove)
    out.error("groove-odd", seam.where, "a groove angle is stated for a weld that is no V",
              "weld=\"vee\", or delete the angle");
}

namespace {

// The attributes that make a seam of one's own.
void read_own_seam(Element& e, const std::vector<Word>& names, const Ids& faces, bool sure, Seam& seam) {
  if (names.size() != 2)
    e.out().error("two-faces", e.where("between"), "a seam joins two faces", "for example between=\"F R\"");
  std::optional<std::size_t> a, b;
  if (sure && names.size() == 2) {
    a = faces.find(names[0], e.out());
    b = faces.find(names[1], e.out());
    if (a && b && *a == *b)
      e.out().error("two-faces", e.where("between"), "a seam joins two different faces",
                    "for example between=\"F R\"");
    seam.face_a = a.value_or(0);
    seam.face_b = b.value_or(0);
  }
  e.require("joint", "corner");
  seam.joint = e.choice("joint", words::joints).value_or(JointKind::corner);
  const bool corner = seam.joint == JointKind::corner, upright = seam.joint == JointKind::tee;
  if (corner) {
    seam.corner = e.choice("corner", words::corners).value_or(CornerStyle::half_open);
    const auto said = e.text("over");
    if (seam.corner != CornerStyle::open) {
      if (a) seam.over = *a;
      if (said && a && b) {
        seam.over = *said == names[1].text ? b : a;
        if (*said != names[0].text && *said != names[1].text)
          e.out().error(
              "over-unknown", e.where("over"), quoted(*said) + " is not one of the seam's two faces",
              "name the one that covers the other's edge: " + names[0].text + " or " + names[1].text);
      }
    } else if (said) {
      e.out().error("over-open", e.where("over"), "in an open corner neither face is over the other",
                    "delete over, or corner=\"half-open-corner\"");
    }
  }
  if (upright || seam.joint == JointKind::lap) {
    seam.weld = WeldKind::fillet;
    seam.finish = Finish::left;
    if (upright) seam.side = WeldSide::inside;
  }
}

void refuse_on_expanded(Element& e) {
  for (const std::string_view name : {"joint", "corner", "over"})
    if (e.has(name))
      e.out().error("seam-of-form", e.where(name),
                    quoted(name) + " of a seam that a form made cannot be changed here",
                    "state it in the form, or state the faces by <part>");
}

void read_after(Element& e, Seam& seam) {
  for (const Word& word : e.words("after"))
    seam.after.push_back(word.text);
}

} // namespace

void read_seams(const Element& box_element, const Known& known, bool sure, Box& box, Diagnostics& out) {
  Ids faces("face"), expanded("seam"), stated("seam");
  for (std::size_t i = 0; i < box.faces.size(); ++i)
    faces.add(box.faces[i].id, i, box.faces[i].where, out);
  for (std::size_t i = 0; i < box.seams.size(); ++i)
    expanded.add(box.seams[i].id, i, box.seams[i].where, out);

  for (Element& e : box_element.children("seam")) {
    const std::string id = e.id();
    const std::size_t before = e.reading().errors();
    const auto place = expanded.find(id);
    const bool own = e.has("between");
    Seam seam = place && !own ? box.seams[*place] : Seam{};
    seam.id = id;
    seam.where = e.where();
    if (own)
      read_own_seam(e, e.words("between"), faces, sure, seam);
    else
      refuse_on_expanded(e);
    if (!own && !place && !id.empty() && sure) {
      const std::string near = suggestion(id, expanded.all());
      out.error("reference", e.where("id"), "no form makes a seam " + quoted(id),
                near.empty() ? "a seam of your own states between=\"F R\""
                             : near + " A seam of your own states between=\"F R\"");
    }
    read_seam_style(e, known, seam);
    read_after(e, seam);
    read_shrinkage(e, seam.own);
    e.allow({"shrinkage"});
    e.finish();
    if (e.reading().errors() == before) check_seam(seam, out);
    if (id.empty() || !stated.add(id, 0, e.where("id"), out)) continue;
    if (own && place) {
      out.error("id-twice", e.where("id"), "a form made a seam " + quoted(id) + " already",
                "choose another id, or delete between to change that seam",
                Note{"the form", box.seams[*place].where});
    } else if (place) {
      box.seams[*place] = std::move(seam);
    } else if (own) {
      box.seams.push_back(std::move(seam));
    }
  }
}

namespace {

// Depth-first over "after", by index of the seams.
class Cycles {
 public:
  Cycles(const Box& box, const Ids& ids, Diagnostics& out) : box_(box), ids_(ids), out_(out) {
    state_.assign(box.seams.size(), 0);
    for (std::size_t i = 0; i < box.seams.size(); ++i)
      if (state_[i] == 0) visit(i);
  }

 private:
  // A path is at most as long as there are seams; it is kept in a list of our own, not on the stack.
  void visit(std::size_t start) {
    std::vector<std::pair<std::size_t, std::size_t>> path{{start, 0}}; // seam, its next "after" to look at
    state_[start] = 1;
    while (!path.empty()) {
      const std::size_t seam = path.back().first;
      const auto& after = box_.seams[seam].after;
      if (path.back().second == after.size()) {
        state_[seam] = 2;
        path.pop_back();
        continue;
      }
      const auto next = ids_.find(after[path.back().second++]);
      if (!next || state_[*next] == 2) continue;
      if (state_[*next] == 1) {
        report(path, *next);
        continue;
      }
      state_[*next] = 1;
      path.emplace_back(*next, 0);
    }
  }

  void report(const std::vector<std::pair<std::size_t, std::size_t>>& path, std::size_t first) {
    std::size_t i = path.size() - 1;
    while (path[i].first != first)
      --i;
    std::string chain = box_.seams[first].id;
    for (++i; i < path.size(); ++i)
      chain += " after " + box_.seams[path[i].first].id;
    const Seam& last = box_.seams[path.back().first];
    out_.error("after-cycle", last.where,
               "these seams wait for each other: " + chain + " after " + box_.seams[first].id,
               "delete one of the \"after\"");
  }

  const Box& box_;
  const Ids& ids_;
  Diagnostics& out_;
  std::vector<int> state_; // 0 not seen, 1 on the path, 2 done
};

} // namespace

void check_after(const Box& box, bool sure, Diagnostics& out) {
  if (!sure) return;
  Diagnostics ignored; // duplicates are reported by read_seams
  Ids ids("seam");
  for (std::size_t i = 0; i < box.seams.size(); ++i)
    ids.add(box.seams[i].id, i, box.seams[i].where, ignored);
  for (const Seam& seam : box.seams)
    for (const std::string& before : seam.after)
      ids.find(Word{before, seam.where}, out);
  Cycles(box, ids, out);
}

} // namespace tacksquare
