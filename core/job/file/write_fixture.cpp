#include "job/file/write_fixture.h"

#include "job/file/read_job.h"
#include "job/file/scan.h"
#include "job/file/tag.h"
#include "job/file/words.h"

namespace tacksquare {

namespace {

std::optional<std::string> stated(const std::string& text) {
  return text.empty() ? std::optional<std::string>() : text;
}

void write_piece(std::string& out, std::size_t depth, const FixturePiece& p) {
  Tag tag(out, depth, word_of(words::items, p.kind));
  tag.with("id", p.id);
  switch (p.kind) {
  case ItemKind::support:
    tag.with("at", place(Vec2{p.at.x, p.at.y}));
    break;
  case ItemKind::stop:
    tag.with("at", place(p.at)).with("towards", words::towards, p.towards);
    break;
  case ItemKind::hold_down:
  case ItemKind::bar_clamp:
  case ItemKind::spreader:
    tag.with("at", place(p.at));
    if (p.to) tag.with("to", place(*p.to));
    tag.with("force", p.force);
    break;
  case ItemKind::corner_clamp:
  case ItemKind::square:
    if (p.faces.size() != 2) throw InternalError("a corner that is not one of two faces");
    tag.with("corner", p.faces[0] + ' ' + p.faces[1])
        .with("at", place(p.at))
        .with("size", p.size)
        .with("force", p.force);
    break;
  case ItemKind::former:
    tag.with("below", p.below).with("width", p.width).with("height", p.height).with("clip", p.clip);
    break;
  case ItemKind::backing_bar:
    tag.with("seam", p.seam)
        .with("from", millimetres(p.from_mm))
        .with("to", millimetres(p.to_mm))
        .with("width", p.size);
    break;
  }
  if (p.until_tacked) tag.with("until", std::string("tacked"));
  tag.empty();
}

void write_stated(std::string& out, std::size_t depth, Tag& tag, const Fixture& fixture) {
  tag.with("name", stated(fixture.name))
      .with("down", fixture.down)
      .with("long-side", fixture.long_side)
      .open();
  for (const FixturePiece& piece : fixture.pieces)
    write_piece(out, depth + 1, piece);
  tag.close();
}

// As a comment may hold it: no two hyphens stand side by side.
std::string in_comment(const std::string& text) {
  std::string shown;
  for (const char c : text) {
    if (c == '-' && !shown.empty() && shown.back() == '-') shown += ' ';
    shown += c;
  }
  return shown;
}

} // namespace

void write_shop(std::string& out, const Shop& shop) {
  Tag tag(out, 1, "shop");
  tag.open();
  if (shop.table)
    Tag(out, 2, "table")
        .with("width", written(shop.table->width))
        .with("depth", written(shop.table->depth))
        .empty();
  const ToolReach& tools = shop.tools;
  if (tools.nozzle || tools.torch_lean || tools.torch_reach)
    Tag(out, 2, "torch")
        .with("nozzle", tools.nozzle)
        .with("lean", tools.torch_lean)
        .with("reach", tools.torch_reach)
        .empty();
  if (tools.disc || tools.grinder)
    Tag(out, 2, "grinder").with("disc", tools.disc).with("height", tools.grinder).empty();
  for (const OwnedItem& item : shop.owned)
    Tag(out, 2, "owns")
        .with("item", words::items, item.kind)
        .with("count", std::to_string(item.count))
        .with("opens", item.opens)
        .with("length", item.length)
        .with("shortest", item.shortest)
        .with("foot", item.foot)
        .with("force", item.force)
        .empty();
  tag.close();
}

void write_fixture(std::string& out, const Job& job, const Fixture& fixture) {
  Tag tag(out, 1, "fixture");
  tag.with("box", job.boxes[fixture.box].id);
  write_stated(out, 1, tag, fixture);
}

std::string write_fixture(const Fixture& fixture, const Box& box) {
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- Holds " + in_comment(box.name) +
                    ". Places are x, y, z from the corner at the stops: x along the long side,\n"
                    "     y away from it, z up from the metal that lies lowest. To use it, put into a job:\n"
                    "     <fixture box=\"" +
                    in_comment(box.id) + "\" file=\"fixture-" + in_comment(box.id) + ".xml\"/> -->\n";
  Tag tag(out, 0, kFixtureFile.root);
  write_stated(out, 0, tag, fixture);
  return out;
}

} // namespace tacksquare
