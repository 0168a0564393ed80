#include "sheet/document.h"
#include "sheet/html.h"

#include <algorithm>
#include <fmt/format.h>

namespace tacksquare {

namespace {

const char* class_of(Who who) {
  switch (who) {
  case Who::welder:
    return "who welder";
  case Who::grinder:
    return "who grinder";
  case Who::foreman:
    return "who foreman";
  case Who::both:
    break;
  }
  return "who both";
}

// A word too long for a column may break anywhere; a short figure stays on one line.
const char* cell_class(bool numeric, const std::string& text) {
  constexpr std::size_t kLong = 24; // bytes
  std::size_t run = 0, longest = 0;
  for (const char c : text) {
    run = c == ' ' ? 0 : run + 1;
    longest = std::max(longest, run);
  }
  if (longest > kLong) return " class=\"long\"";
  if (!numeric) return "";
  return text.size() > kLong ? " class=\"n\"" : " class=\"n short\"";
}

class HtmlWriter {
 public:
  explicit HtmlWriter(const Document& document) : document_(document), words_(document.words) {}

  std::string write() {
    out_ = "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"" +
           escaped(document_.language) +
           "\">\n<head>\n<meta charset=\"utf-8\"/>\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n";
    element("title", document_.title + " " + document_.signature);
    out_ += "<style>" + html_style(words_.page) + "</style>\n</head>\n<body>\n<main>\n";
    for (const DocumentPage& each : document_.first)
      page(each);
    for (const DocumentBox& box : document_.boxes) {
      open_part(box, "bench", words_.bench);
      bench(box);
      close_part();
      for (const DocumentPage& each : box.cards)
        page(each);
      open_part(box, "foreman", words_.foreman);
      foreman(box);
      close_part();
    }
    out_ += "</main>\n</body>\n</html>\n";
    return std::move(out_);
  }

 private:
  template <class... Parts> void put(const Parts&... parts) { (out_.append(parts), ...); }

  void open(const char* tag, const char* css_class) { put("<", tag, " class=\"", css_class, "\">\n"); }
  void close(const char* tag) { put("</", tag, ">\n"); }
  void element(const char* tag, const std::string& text, const char* css_class = nullptr) {
    put("<", tag);
    if (css_class) put(" class=\"", css_class, "\"");
    put(">", escaped(text), "</", tag, ">\n");
  }
  // A name that somebody gave: its direction must not turn the words around it.
  static std::string name(const std::string& text) { return "<bdi>" + escaped(text) + "</bdi>"; }

  void list(const std::vector<std::string>& lines, const char* css_class) {
    if (lines.empty()) return;
    open("ul", css_class);
    for (const std::string& line : lines)
      element("li", line);
    close("ul");
  }

  // A table of one column whose head the browser repeats on each printed page: so the signature is on all of
  // them.
  template <class B> void open_part(const B& box, const char* css_class, const std::string& page) {
    put("<section class=\"part ", css_class,
        "\">\n<table class=\"pages\" role=\"presentation\"><thead><tr><td>"
        "<div class=\"running\"><span><b>",
        name(box.title), "</b> ", escaped(page), "</span><span>", name(document_.title),
        "</span><span class=\"sign\">", escaped(words_.plan + " " + document_.signature),
        "</span></div></td></tr></thead><tbody><tr><td>\n");
  }
  void close_part() { out_ += "</td></tr></tbody></table>\n</section>\n"; }

  void block(const DocumentBlock& block) {
    open("section", "block");
    if (!block.title.empty()) element("h2", block.title);
    list(block.lines, block.run_on ? "run-on" : "lines");
    close("section");
  }

  template <class B> void title(const B& box) {
    out_ += "<div class=\"title\"><h1>" + name(box.title) + "</h1>\n";
    std::string line;
    for (const std::string& part : box.head)
      line.append(line.empty() ? "" : " &#183; ").append(escaped(part));
    if (!line.empty()) out_ += "<p class=\"headline\">" + line + "</p>\n";
    close("div");
  }

  void defer() {
    for (const std::string& line : document_.defer)
      element("p", line, "defer");
  }

  void figure(const Drawing& drawing) {
    out_ += "<figure>" + svg(drawing, fmt::format("d{}", ++drawings_));
    element("figcaption", drawing.title);
    out_ += "</figure>\n";
  }

  // Several stand one below the other beside a large first one, where the paper is wide enough.
  static bool beside_the_first(const std::vector<Drawing>& all) {
    constexpr double kPaper_mm = 188.0;
    constexpr std::size_t kSeveral = 3;
    double widest = 0.0;
    for (std::size_t i = 1; i < all.size(); ++i)
      widest = std::max(widest, all[i].width_mm);
    return all.size() >= kSeveral && all[0].width_mm + widest <= kPaper_mm &&
           all[0].height_mm > all[1].height_mm;
  }

  void drawings(const std::vector<Drawing>& all, std::size_t from = 0) {
    if (all.size() <= from) return;
    open("div", from == 0 && beside_the_first(all) ? "drawings many" : "drawings");
    for (std::size_t i = from; i < all.size(); ++i)
      figure(all[i]);
    close("div");
  }

  void red(const std::vector<std::string>& lines, const std::string& said = {}) {
    if (lines.empty()) return;
    open("div", "red");
    element("h2", said.empty() ? words_.red : said);
    for (const std::string& line : lines)
      element("p", line);
    close("div");
  }

  void page(const DocumentPage& page) {
    open_part(page, "card", page.page);
    title(page);
    red(page.red, page.red_title);
    for (const DocumentSection& section : page.sections) {
      if (!section.block.lines.empty()) {
        if (section.large) {
          open("div", "large");
          if (!section.block.title.empty()) element("h2", section.block.title);
          for (const std::string& line : section.block.lines)
            element("p", line);
          close("div");
        } else {
          block(section.block);
        }
      }
      drawings(section.drawings);
      for (const DocumentTable& each : section.tables)
        table(each);
    }
    defer();
    close_part();
  }

  void bench(const DocumentBox& box) {
    title(box);
    red(box.red);
    open("div", "top");
    open("div", "told");
    list(box.facts, "facts");
    if (!box.settings.empty()) {
      open("div", "settings");
      element("h2", words_.settings);
      for (const DocumentBlock& each : box.settings) {
        element("h3", each.title);
        list(each.lines, "run-on");
      }
      close("div");
    }
    close("div");
    if (!box.bench_drawings.empty()) figure(box.bench_drawings.front());
    close("div");
    open("div", "before");
    for (const DocumentBlock& each : box.before)
      block(each);
    close("div");
    open("div", "map");
    table(box.seam_map);
    close("div");
    element("p", document_.legend, "legend");
    defer();
    drawings(box.bench_drawings, 1);
    for (const DocumentPhase& phase : box.phases) {
      open("section", "phase");
      element("h2", phase.title);
      for (const DocumentStep& each : phase.steps)
        step(each);
      close("section");
    }
    open("div", "signoff");
    for (const std::string& line : box.sign_off)
      out_ += "<span>" + escaped(line) + "<span></span></span>\n";
    close("div");
  }

  void step(const DocumentStep& step) {
    // A step stays on one page; only one of several checks may go on overleaf, between two of them.
    constexpr std::size_t kMany = 2;
    const bool split = step.checks.size() >= kMany;
    if (!step.hold.empty()) {
      open("div", split ? "hold split" : "hold");
      element("h3", step.hold);
    }
    open("div", split ? "step split" : "step");
    element("div", step.number, "number");
    element("div", step.who, class_of(step.by));
    open("div", "body");
    out_ += "<p class=\"what\">" + escaped(step.what);
    for (const std::string& note : step.notes)
      out_ += " <span class=\"note\">" + escaped(note) + "</span>";
    out_ += "</p>\n";
    if (!step.record.empty()) element("p", step.record, "record");
    if (!step.meanwhile.empty()) element("p", step.meanwhile, "other");
    close("div");
    element("div", step.time, "time");
    out_ += "<div><input type=\"checkbox\" aria-label=\"" + escaped(words_.done + " " + step.number) +
            "\"/></div>\n";
    if (!step.checks.empty()) {
      open("div", "checks");
      for (const DocumentCheck& each : step.checks)
        check(each);
      close("div");
    }
    close("div");
    if (!step.hold.empty()) {
      out_ += "<div class=\"names\">" + escaped(words_.sign);
      for (const std::string& who : step.names)
        out_ += " <span>" + escaped(who) + "<span></span></span>";
      out_ += "</div>\n";
      close("div");
    }
    if (step.safe_stop_after) element("p", words_.stop_here, "stop");
  }

  void check(const DocumentCheck& check) {
    open("div", "check");
    out_ += "<p>" + escaped(words_.check) + " " + escaped(check.what) + ": <span class=\"go\">" +
            escaped(check.go) + "</span> (" + escaped(check.gauge) + ")";
    if (!check.expect.empty()) out_ += " <span class=\"expect\">" + escaped(check.expect) + "</span>";
    for (const DocumentBlanks& group : check.blanks) {
      std::string said = escaped(group.place);
      for (const std::string& label : group.each) {
        if (!said.empty()) said += ' ';
        if (!label.empty()) said.append(escaped(label)).append(" ");
        said += "<span class=\"blank\"></span>";
      }
      const bool last = &group == &check.blanks.back() && !check.unit.empty();
      put(" <span class=\"read\">", said, last ? " " : "", last ? escaped(check.unit) : "", "</span>");
    }
    const std::string off = "<b>" + escaped(words_.off) + "</b> ";
    if (!check.put_right_as.empty())
      out_ += " <span class=\"off\">" + off + escaped(check.put_right_as) + "</span>";
    out_ += "</p>\n";
    if (!check.put_right.empty()) {
      out_ += "<p class=\"off\">" + off;
      int number = 0;
      for (const DocumentRung& rung : check.put_right)
        out_ += fmt::format(" <b>{}&#160;{}</b> ", ++number, escaped(rung.who)) + escaped(rung.what) +
                (rung.time.empty() ? "" : " (" + escaped(rung.time) + ")") + "\n";
      out_ += "</p>\n";
    }
    close("div");
  }

  void table(const DocumentTable& table) {
    element("h2", table.title);
    constexpr std::size_t kNarrow = 4, kFew = 3; // columns
    const bool few = table.head.size() <= kFew;
    open("div", table.large                   ? "data big"
                : !table.slim                 ? (few ? "data few" : "data")
                : table.head.size() > kNarrow ? "slim"
                                              : "slim narrow");
    out_ += "<table class=\"data\"><thead><tr>";
    std::vector<std::string> head;
    for (std::size_t i = 0; i < table.head.size(); ++i) {
      head.push_back(escaped(table.head[i]));
      put("<th scope=\"col\"", table.numeric[i] ? " class=\"n\">" : ">", head.back(), "</th>");
    }
    out_ += "</tr></thead><tbody>\n";
    for (std::size_t number = 0; number < table.rows.size(); ++number) {
      const std::vector<std::string>& row = table.rows[number];
      const bool sum = std::find(table.sums.begin(), table.sums.end(), number) != table.sums.end();
      out_ += sum ? "<tr class=\"sum\">" : "<tr>";
      for (std::size_t i = 0; i < row.size(); ++i)
        put("<td", cell_class(table.numeric[i], row[i]), " data-head=\"", head[i], "\">", escaped(row[i]),
            "</td>");
      out_ += "</tr>\n";
    }
    out_ += "</tbody></table>\n";
    close("div");
    for (const std::string& line : table.below)
      element("p", line, "below");
  }

  void foreman(const DocumentBox& box) {
    title(box);
    defer();
    for (const DocumentBlock& each : box.notes)
      block(each);
    for (const DocumentTable& each : box.foreman)
      table(each);
    drawings(box.foreman_drawings);
  }

  const Document& document_;
  const PageWords& words_;
  std::string out_;
  int drawings_ = 0;
};

} // namespace

std::string write_html(const Document& document) {
  return HtmlWriter(document).write();
}

} // namespace tacksquare
