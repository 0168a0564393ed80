// The sheet as final strings and drawings: every writer prints this and decides nothing. All strings are
// clean UTF-8 without control characters.
#pragma once

#include "plan/plan.h"
#include "sheet/figure.h"

#include <string>
#include <vector>

namespace tacksquare {

enum class UnitSystem { metric, inch_decimal, inch_fractions };

struct SheetOptions {
  UnitSystem units = UnitSystem::metric;
  std::string language = "en-GB"; // or "en-US"
};

// A few lines under a short heading.
struct DocumentBlock {
  std::string title;
  std::vector<std::string> lines;
  bool run_on = false; // they are short: one after the other
};

struct DocumentRung {
  std::string who, what, time;
  bool operator==(const DocumentRung&) const = default;
};

// Blanks at one place, to be kept together.
struct DocumentBlanks {
  std::string place;             // "S1", "rim:"; empty where there is only one
  std::vector<std::string> each; // what stands before each blank: "top", or nothing
};

struct DocumentCheck {
  std::string what;                    // "widths, nine places"
  std::string gauge;                   // "pinch sticks"
  std::string go;                      // "398.8 to 400.0 mm go"
  std::string expect;                  // "no change you can see"; may be empty
  std::vector<DocumentBlanks> blanks;  // to write the readings into
  std::string unit;                    // of the blanks: "mm"; empty where nothing is read off
  std::vector<DocumentRung> put_right; // cheapest first
  std::string put_right_as;            // "as in step 31": the rungs stand there, and none here
};

struct DocumentStep {
  std::string number; // "14"
  Who by = Who::both;
  std::string who; // "W"
  std::string what;
  std::vector<std::string> notes; // where to look, until when, why, in this order
  std::string record;             // what to write down, with blanks; may be empty
  std::string meanwhile;          // "G meanwhile: ..."; may be empty
  std::vector<DocumentCheck> checks;
  std::string hold;               // "HOLD 1: ..."; may be empty
  std::vector<std::string> names; // at a hold: who signs
  std::string time;               // "20 s" of arc, where the words do not tell it; may be empty
  bool safe_stop_after = false;
};

struct DocumentPhase {
  std::string title; // "TACK"
  std::vector<DocumentStep> steps;
};

struct DocumentTable {
  std::string title;
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows; // each as long as head
  std::vector<bool> numeric;                  // per column: right-aligned
  std::vector<std::string> below;             // notes under it
  bool slim = false;                          // long and narrow: may stand in columns side by side
  std::vector<std::size_t> sums;              // rows that add up what stands above them
  bool large = false;                         // read from further away
};

// A part of a page, printed in this order; what is empty is left out.
struct DocumentSection {
  DocumentBlock block;
  std::vector<Drawing> drawings;
  std::vector<DocumentTable> tables;
  bool large = false; // the block is read first, from further away
};

// A page that is neither bench card nor foreman's: the row in its opening, bend card, cut list.
struct DocumentPage {
  std::string title;             // "ALCOVE 2"
  std::string page;              // "OPENING PAGE"
  std::vector<std::string> head; // job, wanted by
  std::vector<std::string> red;  // planned, but do not build it like this; or as red_title says
  std::string red_title;         // above the red ones; empty: as the words of the page
  std::vector<DocumentSection> sections;
};

struct DocumentBox {
  std::string title;             // "GEAR LOCKER"
  std::vector<std::string> head; // job, boxes of this kind, wanted by
  std::vector<std::string> red;  // planned, but do not build it like this
  std::vector<std::string> facts;
  std::vector<DocumentBlock> settings;
  std::vector<DocumentBlock> before;   // what to get, time, care, where the millimetres come from
  std::vector<Drawing> bench_drawings; // the box with seam numbers; each face with tacks and runs
  DocumentTable seam_map;              // seam, faces, tacks, runs: what the drawings show, in words
  std::vector<DocumentPhase> phases;
  std::vector<std::string> sign_off; // labels of blanks at the end
  std::vector<DocumentPage> cards;   // behind the bench card: for the brake and for the cutter
  std::vector<DocumentBlock> notes;  // of the foreman: cautions, settings to prove, what is odd
  std::vector<Drawing> foreman_drawings;
  std::vector<DocumentTable> foreman; // seams, measures, figures, orders, heat, the pair's time, sources
};

// Fixed words of the page.
struct PageWords {
  std::string bench, foreman, settings, check, off, stop_here, sign, done, red, plan, page;
};

struct Document {
  std::string language; // "en-GB"
  std::string title;
  std::string signature;
  std::vector<std::string> defer;  // local codes, a qualified procedure and licensed practice come first
  std::string legend;              // "W = welder, G = grinder, ..."
  std::vector<DocumentPage> first; // before all boxes
  std::vector<DocumentBox> boxes;
  PageWords words;
};

Document make_document(const Plan& plan, const SheetOptions& options);

// Plain text of at most the stated columns (at least 40: fewer are taken as 40). No line is longer, none ends
// in a space. Drawings are left out: the seam map says the same.
std::string write_text(const Document& document, int columns = 80);

// One page that needs nothing else: style and drawings inside, no script. Well-formed as XML too.
std::string write_html(const Document& document);

} // namespace tacksquare
