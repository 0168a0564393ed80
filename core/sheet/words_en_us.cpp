// What a US shop says otherwise.
#include "sheet/catalogue.h"

namespace tacksquare {

namespace {

// Replaces the entry of the same key.
constexpr Entry kWords[] = {
    {"phase.knock-down", "KNOCK DOWN THE TACKS"},
    {"weld.square", "square-groove weld"},
    {"weld.vee", "V-groove weld"},
    {"weld.v", "V-groove weld"},
    {"word.bar-clamps", "bar clamps"},
    {"word.former", "inside frame"},
    {"word.spreaders", "spreader bars"},
    {"kit.bar-clamp", "{pieces} bar clamp{pieces|/s} {length|round}"},
    {"kit.former", "{pieces} inside frame{pieces|/s} with wedge"},
    {"pieces.bar-clamp", "bar clamp{pieces|/s} {ids}"},
    {"pieces.former", "inside frame{pieces|/s} {ids}"},
    {"pieces.spreader", "spreader bar{pieces|/s} {ids}"},
    {"fixture.kind.bar-clamp", "bar clamp"},
    {"fixture.kind.former", "inside frame"},
    {"fixture.kind.spreader", "spreader bar"},
    {"word.work-clamp", "work clamp"},
    {"word.shim", "shim"},
    {"word.knock-down", "knock the tacks down"},
    {"word.flush", "grind flush"},
    {"word.brake", "press brake"},
    {"word.racked", "racked"},
    {"word.runs", "welds"},
};

// Spelling, in all entries.
constexpr Entry kSpelling[] = {
    {"calliper", "caliper"}, {"Calliper", "Caliper"},   {"centre", "center"},
    {"Centre", "Center"},    {"aluminium", "aluminum"}, {"Aluminium", "Aluminum"},
    {"colour", "color"},     {"metres", "meters"},      {"metre", "meter"},
};

} // namespace

std::span<const Entry> words_en_us() {
  return kWords;
}

std::span<const Entry> spelling_en_us() {
  return kSpelling;
}

} // namespace tacksquare
