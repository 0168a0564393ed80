#include "sheet/document.h"
#include "sheet/plain_text.h"
#include "sheet/text_lines.h"

#include <algorithm>
#include <string_view>

namespace tacksquare {

namespace {

constexpr int kLeast = 40;

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string out;
  for (const std::string& part : parts) {
    if (!out.empty()) out += between;
    out += part;
  }
  return out;
}

class TextWriter {
 public:
  TextWriter(const Document& document, int columns)
      : document_(document), words_(document.words), out_(columns) {}

  std::string write() {
    for (const DocumentPage& each : document_.first)
      page(each);
    for (const DocumentBox& box : document_.boxes) {
      bench(box);
      for (const DocumentPage& each : box.cards)
        page(each);
      foreman(box);
    }
    return out_.take();
  }

 private:
  // box: a box or a page.
  template <class B> void page_head(const B& box, const std::string& page) {
    out_.rule('=');
    out_.paragraph("", box.title, page);
    std::string line = document_.title;
    for (const std::string& part : box.head)
      line += " | " + part;
    line += " | " + words_.plan + " " + document_.signature;
    out_.paragraph("", line);
    out_.rule('=');
  }

  void defer() {
    for (const std::string& line : document_.defer)
      out_.paragraph("", line);
  }

  void red(const std::vector<std::string>& lines, const std::string& said = {}) {
    for (const std::string& line : lines)
      out_.paragraph("!!! " + (said.empty() ? words_.red : said) + ": ", line);
  }

  void page(const DocumentPage& page) {
    page_head(page, page.page);
    red(page.red, page.red_title);
    for (const DocumentSection& section : page.sections) {
      if (!section.block.lines.empty()) {
        out_.blank();
        block(section.block);
      }
      for (const DocumentTable& table : section.tables) {
        out_.blank();
        out_.table(table);
      }
    }
    out_.blank();
    defer();
    out_.blank();
  }

  void bench(const DocumentBox& box) {
    page_head(box, words_.bench);
    red(box.red);
    for (const std::string& line : box.facts)
      out_.paragraph("", line);
    if (!box.settings.empty()) {
      out_.blank();
      out_.paragraph("", words_.settings);
      for (const DocumentBlock& each : box.settings)
        block(each, "  ");
    }
    for (const DocumentBlock& each : box.before) {
      out_.blank();
      block(each);
    }
    out_.blank();
    out_.table(box.seam_map);
    out_.blank();
    out_.paragraph("", document_.legend);
    defer();
    for (const DocumentPhase& phase : box.phases) {
      out_.blank();
      std::string title = "--- " + phase.title + " ";
      if (const int used = columns_of(title); used < out_.columns())
        title.append(static_cast<std::size_t>(out_.columns() - used), '-');
      out_.paragraph("", title);
      for (const DocumentStep& each : phase.steps)
        step(each);
    }
    out_.blank();
    for (const std::string& line : box.sign_off)
      out_.paragraph("", line + " ________________________");
    out_.blank();
  }

  void block(const DocumentBlock& block, const std::string& indent = {}) {
    if (!block.title.empty()) out_.paragraph(indent, block.title);
    if (block.run_on)
      out_.paragraph(indent + "  ", joined(block.lines, "; "));
    else
      for (const std::string& line : block.lines)
        out_.paragraph(indent + "  - ", line);
  }

  void step(const DocumentStep& step) {
    const std::string indent(8, ' ');
    if (!step.hold.empty()) {
      out_.rule('#');
      out_.paragraph("### ", step.hold);
    }
    const std::string lead =
        std::string(static_cast<std::size_t>(std::max(0, 3 - columns_of(step.number))), ' ') + step.number +
        "  " + step.who;
    out_.paragraph(padded(lead, 8), step.what, step.time.empty() ? "[ ]" : step.time + "  [ ]");
    if (!step.notes.empty()) out_.paragraph(indent, joined(step.notes, " "));
    if (!step.record.empty()) out_.paragraph(indent, step.record);
    for (const DocumentCheck& each : step.checks)
      check(each);
    if (!step.meanwhile.empty()) out_.paragraph(indent + "| ", step.meanwhile);
    if (!step.hold.empty()) {
      std::string names;
      for (const std::string& name : step.names)
        names += (names.empty() ? "" : "   ") + name + " ______________";
      out_.paragraph("### " + words_.sign + " ", names);
      out_.rule('#');
    }
    if (step.safe_stop_after) out_.paragraph(indent, "** " + words_.stop_here + " **");
  }

  void check(const DocumentCheck& check) {
    const std::string indent(8, ' ');
    std::string line = check.what + ": " + check.go + " (" + check.gauge + ")";
    if (!check.expect.empty()) line += "; " + check.expect;
    out_.paragraph(indent + words_.check + " ", line);
    std::vector<std::string> blanks;
    for (const DocumentBlanks& group : check.blanks) {
      std::string said = group.place;
      for (const std::string& label : group.each) {
        if (!said.empty()) said += ' ';
        if (!label.empty()) said.append(label).append(" ");
        said += "_____";
      }
      blanks.push_back(said);
    }
    if (!blanks.empty() && !check.unit.empty()) blanks.back() += " " + check.unit;
    out_.items(indent + "      ", blanks);
    if (!check.put_right_as.empty()) out_.paragraph(indent + words_.off + " ", check.put_right_as);
    for (std::size_t i = 0; i < check.put_right.size(); ++i) {
      const DocumentRung& rung = check.put_right[i];
      const std::string lead = indent + (i == 0 ? words_.off : std::string(words_.off.size(), ' ')) + " " +
                               std::to_string(i + 1) + " " + rung.who + "  ";
      out_.paragraph(lead, rung.what + (rung.time.empty() ? "" : " (" + rung.time + ")"));
    }
  }

  void foreman(const DocumentBox& box) {
    page_head(box, words_.foreman);
    defer();
    for (const DocumentBlock& each : box.notes) {
      out_.blank();
      block(each);
    }
    for (const DocumentTable& table : box.foreman) {
      out_.blank();
      out_.table(table);
    }
    out_.blank();
  }

  const Document& document_;
  const PageWords& words_;
  TextLines out_;
};

} // namespace

std::string write_text(const Document& document, int columns) {
  return TextWriter(document, std::max(columns, kLeast)).write();
}

} // namespace tacksquare
