// A box: its form, what is added to it, its holes and vents.
#include "base/ids.h"
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/weld_order.h"
#include "job/file/words.h"
#include "job/forms.h"

#include <algorithm>

namespace tacksquare {

namespace {

Length need(Element& e, std::string_view name, std::string_view example, Range<Length> range) {
  e.require(name, example);
  return e.quantity(name, parse_length, range).value_or(mm(0));
}

struct Sizes {
  Length width, depth, height;
  bool inside = false;
};

Sizes read_sizes(Element& e) {
  return {need(e, "width", "400 mm", ranges::size), need(e, "depth", "300 mm", ranges::size),
          need(e, "height", "600 mm", ranges::size), e.choice("sizes", words::size_kinds).value_or(false)};
}

std::vector<std::string> read_over(Element& e, const std::string& letters) {
  std::vector<std::string> over;
  for (const Word& word : e.words("over")) {
    if (word.text.size() == 1 && letters.find(word.text) != std::string::npos) {
      over.push_back(word.text);
      continue;
    }
    std::string known;
    for (const char letter : letters)
      known += std::string(known.empty() ? "" : " ") + letter;
    e.out().error("side-unknown", word.where, "this box has no side " + quoted(word.text),
                  "its sides are " + known);
  }
  return over;
}

std::string letters_of(const std::string& open_side) {
  std::string letters = "FBLRUT";
  letters.erase(std::remove(letters.begin(), letters.end(), open_side[0]), letters.end());
  return letters;
}

template <class Form> void take_sizes(Element& e, Form& form) {
  const Sizes sizes = read_sizes(e);
  form.width = sizes.width;
  form.depth = sizes.depth;
  form.height = sizes.height;
  form.sizes_are_inside = sizes.inside;
}

// Reads what is said of the form's seams, and the end of the element. Whether all since `before` was well.
template <class Form> bool seams_end_well(Element& e, const Known& known, std::size_t before, Form& form) {
  form.seam.where = form.where;
  read_seam_style(e, known, form.seam);
  e.allow({});
  e.finish();
  if (e.reading().errors() > before) return false;
  check_seam(form.seam, e.out());
  return true;
}

void read_open_box(Element e, const Known& known, const Job& job, Box& box) {
  const std::size_t before = e.reading().errors();
  OpenBoxForm form;
  form.where = e.where();
  take_sizes(e, form);
  e.require("open", "front");
  form.open_side = e.choice("open", words::openings).value_or("F");
  e.require("made", "folded");
  form.construction = e.choice("made", words::constructions).value_or(Construction::folded);
  const auto sheet = read_sheet_ref(e, known, job);
  if (form.construction == Construction::folded) {
    form.inside_radius = need(e, "inside-radius", "2 mm", ranges::radius);
    form.radius_where = e.where("inside-radius");
  } else if (e.has("inside-radius")) {
    e.out().error("radius-on-panels", e.where("inside-radius"), "a box of panels has no bends",
                  "delete inside-radius, or made=\"folded\"");
  }
  form.corner = e.choice("corner", words::corners).value_or(form.corner);
  form.over = read_over(e, letters_of(form.open_side));
  if (!seams_end_well(e, known, before, form) || !sheet) return;
  form.sheet = *sheet;
  expand(form, job.sheets, box, e.out());
}

void read_closed_box(Element e, const Known& known, const Job& job, Box& box) {
  const std::size_t before = e.reading().errors();
  ClosedBoxForm form;
  form.where = e.where();
  take_sizes(e, form);
  const auto sheet = read_sheet_ref(e, known, job);
  form.corner = e.choice("corner", words::corners).value_or(form.corner);
  form.over = read_over(e, "FBLRUT");
  if (box.last_face) form.last_face = *box.last_face;
  if (!seams_end_well(e, known, before, form) || !sheet) return;
  form.sheet = *sheet;
  expand(form, job.sheets, box, e.out());
}

// onto: the box is sound so far, and is added to.
void read_flange(Element e, const Known& known, const Job& job, bool onto, Box& box) {
  const std::size_t before = e.reading().errors();
  FlangeForm form;
  form.where = e.where();
  form.width = need(e, "width", "20 mm", ranges::lip);
  form.outward = e.choice("turned", words::turns).value_or(true);
  form.inside_radius = need(e, "inside-radius", "2 mm", ranges::radius);
  if (!seams_end_well(e, known, before, form) || !onto) return;
  expand(form, job.sheets, box, e.out());
}

void read_divider(Element e, const Known& known, const Job& job, bool onto, Box& box) {
  const std::size_t before = e.reading().errors();
  DividerForm form;
  form.where = e.where();
  form.id = e.id();
  e.require("across", "width");
  form.across = e.choice("across", words::across).value_or('w');
  form.at = need(e, "at", "200 mm", ranges::size);
  form.height = need(e, "height", "100 mm", ranges::size);
  const auto sheet = read_sheet_ref(e, known, job);
  form.seam.where = form.where;
  form.seam.joint = JointKind::tee;
  form.seam.weld = WeldKind::fillet;
  form.seam.side = WeldSide::inside;
  form.seam.finish = Finish::left;
  read_seam_style(e, known, form.seam);
  e.allow({});
  e.finish();
  if (e.reading().errors() > before) return;
  check_seam(form.seam, e.out());
  if (!onto || !sheet) return;
  form.sheet = *sheet;
  expand(form, job.sheets, box, e.out());
}

void read_lid(Element e, const Known& known, const Job& job, bool onto, Box& box) {
  const std::size_t before = e.reading().errors();
  LidForm form;
  form.where = e.where();
  if (e.has("id")) form.id = e.id();
  const auto sheet = read_sheet_ref(e, known, job);
  form.overhang = e.quantity("overhang", parse_length, ranges::limit).value_or(mm(0));
  e.allow({});
  e.finish();
  if (e.reading().errors() > before || !onto || !sheet) return;
  form.sheet = *sheet;
  expand(form, job.sheets, box, e.out());
}

void read_forms(const Element& element, const Known& known, const Job& job, Box& box) {
  const auto open = element.only_child("open-box");
  const auto closed = element.only_child("closed-box");
  if (open && closed)
    element.out().error("form-twice", closed->where(), "a box is either open or closed",
                        "delete one of the two", Note{"the other one", open->where()});
  const std::size_t before = element.reading().errors();
  if (open)
    read_open_box(*open, known, job, box);
  else if (closed)
    read_closed_box(*closed, known, job, box);
  // Onto a box that has a fault nothing is put: it would only complain of the fault again.
  const bool onto = element.reading().errors() == before;
  if (const auto flange = element.only_child("flange")) read_flange(*flange, known, job, onto, box);
  auto dividers = element.children("divider");
  // By id, so that the numbers of the seams do not hang on the order of the file.
  std::stable_sort(dividers.begin(), dividers.end(),
                   [](const Element& a, const Element& b) { return id_before(a.raw("id"), b.raw("id")); });
  for (const Element& divider : dividers)
    read_divider(divider, known, job, onto, box);
  if (const auto lid = element.only_child("lid")) read_lid(*lid, known, job, onto, box);
}

// Sizes of a box that is stated by its faces.
void read_outside(const Element& element, Box& box) {
  auto e = element.only_child("outside");
  if (!e) return;
  if (box.form != BoxForm::own_faces)
    e->out().error("outside-twice", e->where(), "the form of this box states its sizes already",
                   "delete <outside>");
  box.width = e->quantity("width", parse_length, ranges::outside);
  box.depth = e->quantity("depth", parse_length, ranges::outside);
  box.height = e->quantity("height", parse_length, ranges::outside);
  box.form = e->choice("form", words::box_forms).value_or(box.form);
  box.construction = e->choice("made", words::constructions).value_or(box.construction);
  if (const auto open = e->choice("open", words::openings)) box.open_side = *open;
  e->allow({});
  e->finish();
}

bool inside(const std::vector<Vec2>& ring, Vec2 p) {
  bool in = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const Vec2 a = ring[i], b = ring[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

void read_vent(Element e, const Ids& faces, bool sure, Box& box) {
  Vent vent;
  vent.where = e.where();
  e.require("face", "T");
  const auto said = e.text("face");
  e.require("at", "50 mm, 50 mm");
  const auto at = e.list("at", 2, parse_length, ranges::place);
  vent.diameter = need(e, "diameter", "8 mm", ranges::hole);
  vent.plugged_last = e.choice("plugged", words::plugged).value_or(true);
  e.allow({});
  e.finish();
  if (!sure || !said || !at) return;
  const auto face = faces.find(Word{*said, e.where("face")}, e.out());
  if (!face) return;
  vent.face = *face;
  vent.at = {in_mm((*at)[0]), in_mm((*at)[1])};
  if (!inside(box.faces[vent.face].outline, vent.at))
    e.out().error("vent-outside", e.where("at"), "the vent does not lie in face " + quoted(*said),
                  "x and y count from the face's left under corner, seen from outside");
  box.vents.push_back(vent);
}

void check_references(Element& e, const Ids& faces, bool sure, Box& box) {
  if (!sure) return;
  if (box.attitude && *box.attitude != "rim") faces.find(Word{*box.attitude, e.where("face-down")}, e.out());
  if (box.last_face) faces.find(Word{*box.last_face, e.where("last-face")}, e.out());
  if (box.faces.empty()) {
    e.out().error("box-empty", e.where(), "box " + quoted(box.id) + " has no faces",
                  "add <open-box>, <closed-box> or <part>");
  } else if (box.seams.empty()) {
    e.out().error("no-seams", e.where(), "box " + quoted(box.id) + " has no seams: there is nothing to weld",
                  "add <seam id=\"S1\" between=\"F R\" joint=\"corner\"/>");
  }
}

} // namespace

BoxSure read_box(Element& e, const Known& known, Job& job) {
  Box box;
  BoxSure well;
  const std::size_t before = e.reading().errors();
  box.where = e.where();
  box.id = e.id();
  box.name = e.seen_name().value_or(box.id);
  const auto count = e.count("count", ranges::count);
  well.count = count || !e.has("count");
  box.count = count.value_or(1);
  box.attitude = e.text("face-down");
  box.last_face = e.text("last-face");
  if (!e.children("closed-box").empty() && box.last_face &&
      (box.last_face->size() != 1 || std::string("FBLRUT").find(*box.last_face) == std::string::npos)) {
    e.out().error("side-unknown", e.where("last-face"), "a closed box has no side " + quoted(*box.last_face),
                  "its sides are F B L R U T");
    box.last_face.reset();
  }
  read_forms(e, known, job, box);
  read_own_parts(e, known, job, box);
  read_outside(e, box);
  const bool sure = e.reading().errors() == before && !job.sheets.empty();

  Ids faces("face");
  for (std::size_t i = 0; i < box.faces.size(); ++i) {
    faces.add(box.faces[i].id, i, box.faces[i].where, e.out());
    if (box.faces[i].id == "rim")
      e.out().error("id-bad", box.faces[i].where, "\"rim\" is kept for the open rim of a box",
                    "choose another id");
  }
  read_cutouts(e, box, nullptr, sure);
  for (Element& vent : e.children("vent"))
    read_vent(vent, faces, sure, box);
  read_seams(e, known, sure, box, e.out());
  check_after(box, sure, e.out());
  check_references(e, faces, sure, box);
  well.faces = sure;
  well.seams = e.reading().errors() == before;
  const std::vector<Word> order = e.words("weld-order");
  if (well.seams && !order.empty()) state_weld_order(box, order, e.where("weld-order"), e.out());
  if (known.sure_of_sheets) check_bend_radii(e, job, box);
  e.allow({"open-box", "closed-box", "flange", "divider", "lid", "outside", "part", "hole", "cut-out", "vent",
           "seam"});
  e.finish();
  if (!box.id.empty()) job.boxes.push_back(std::move(box));
  return well;
}

} // namespace tacksquare
