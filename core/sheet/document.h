// The sheet as final strings and figures: every writer prints this and decides nothing.
#pragma once

#include "plan/plan.h"
#include "sheet/figure.h"

#include <string>
#include <vector>

namespace tacksquare {

enum class UnitSystem { metric, inch_decimal, inch_fractions };

struct SheetOptions {
  UnitSystem units = UnitSystem::metric;
  std::string language = "en-GB"; // catalogue: "en-GB" or "en-US"
};

struct DocumentCheck {
  std::string gauge;     // "pinch sticks"
  std::string go;        // "398.8 to 400.0 go"
  std::string expect;    // "no change you can see. More than 1.0: stop"
  int readings = 1;      // blanks
  std::vector<std::string> put_right; // numbered rungs: who, what, how long
};

struct DocumentStep {
  std::string number;    // "14"
  std::string who;       // "W"
  std::string what;
  std::vector<std::string> notes; // look, why, until, in this order
  std::string meanwhile; // what the other one does; may be empty
  std::vector<DocumentCheck> checks;
  std::string hold;      // "HOLD 1  fit-up: W and G sign"; may be empty
  std::string time;      // "20 s"; may be empty
  bool safe_stop_after = false;
};

struct DocumentPhase {
  std::string title;     // "TACK"
  std::vector<DocumentStep> steps;
};

struct DocumentTable {
  std::string title;
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
  std::vector<bool> numeric;           // per column: right-aligned
  std::vector<std::string> below;      // notes under it
};

struct DocumentBox {
  std::string title;                   // "GEAR LOCKER"
  std::vector<std::string> head;       // job, box 1 of 3, signature
  std::vector<std::string> red;        // red cautions, first of all
  std::vector<std::string> facts;
  std::vector<std::string> settings;
  std::vector<std::string> kit, care, where_mm, times;
  std::vector<Drawing> bench_drawings; // the box with seam numbers; each face with tacks and runs
  std::vector<DocumentPhase> phases;
  std::vector<std::string> sign_off;   // lines with blanks
  std::vector<DocumentTable> foreman;  // seams, order compared, heat balance, figures with bands, measures
  std::vector<std::string> foreman_notes;
};

struct Document {
  std::string title;
  std::string signature;
  std::vector<std::string> defer;      // local codes, a qualified procedure and licensed practice come first
  std::string legend;                  // W = welder, G = grinder, ...
  std::vector<DocumentBox> boxes;
  // Fixed words of the page (headings), from the catalogue.
  std::string word_bench, word_foreman, word_settings, word_kit, word_care, word_where_mm, word_time,
      word_meanwhile, word_off, word_stop_here, word_ok, word_read, word_page, word_signature, word_drawings;
};

Document make_document(const Plan& plan, const SheetOptions& options);

std::string write_text(const Document& document, int columns = 80);
std::string write_html(const Document& document);

} // namespace tacksquare
