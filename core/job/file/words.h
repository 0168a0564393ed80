// The words of the job file, for the reader and the writer alike.
#pragma once

#include "job/file/reading.h"
#include "job/job.h"

#include <array>
#include <string_view>

namespace tacksquare::words {

inline const Words<JointKind> joints = {{"butt", JointKind::butt},
                                        {"corner", JointKind::corner},
                                        {"tee", JointKind::tee},
                                        {"lap", JointKind::lap}};
inline const Words<CornerStyle> corners = {{"open-corner", CornerStyle::open},
                                           {"half-open-corner", CornerStyle::half_open},
                                           {"lapped-corner", CornerStyle::lapped}};
inline const Words<WeldKind> welds = {
    {"square", WeldKind::square}, {"fillet", WeldKind::fillet}, {"vee", WeldKind::vee}};
inline const Words<WeldSide> sides = {{"outside", WeldSide::outside}, {"inside", WeldSide::inside}};
inline const Words<Finish> finishes = {{"flush", Finish::flush}, {"left", Finish::left}};
inline const Words<WeldPosition> positions = {{"flat", WeldPosition::flat},
                                              {"horizontal", WeldPosition::horizontal},
                                              {"downhill", WeldPosition::downhill},
                                              {"uphill", WeldPosition::uphill},
                                              {"overhead", WeldPosition::overhead}};
inline const Words<Process> processes = {
    {"mag", Process::mag}, {"mig", Process::mig}, {"tig", Process::tig}, {"mma", Process::mma}};
inline const Words<Construction> constructions = {{"folded", Construction::folded},
                                                  {"panels", Construction::panels}};
inline const Words<BoxForm> box_forms = {
    {"open-box", BoxForm::open_box}, {"closed-box", BoxForm::closed_box}, {"own-faces", BoxForm::own_faces}};
inline const Words<std::string> openings = {{"front", "F"}, {"top", "T"}};
inline const Words<bool> plugged = {{"last", true}, {"never", false}};
inline const Words<bool> size_kinds = {{"outside", false}, {"inside", true}};
inline const Words<bool> turns = {{"out", true}, {"in", false}};
inline const Words<char> across = {{"width", 'w'}, {"depth", 'd'}, {"height", 'h'}};
inline const Words<MetalFamily> families = {{"mild-steel", MetalFamily::mild_steel},
                                            {"galvanized", MetalFamily::galvanized},
                                            {"stainless", MetalFamily::stainless},
                                            {"aluminium", MetalFamily::aluminium}};
inline const Words<LinearClass> linear_classes = {
    {"A", LinearClass::A}, {"B", LinearClass::B}, {"C", LinearClass::C}, {"D", LinearClass::D}};
inline const Words<TackRule> tack_rules = {
    {"sheet", TackRule::sheet}, {"handbook", TackRule::handbook}, {"en-1011-2", TackRule::en_1011_2}};
inline const Words<FlatnessClass> flatness_classes = {
    {"E", FlatnessClass::E}, {"F", FlatnessClass::F}, {"G", FlatnessClass::G}, {"H", FlatnessClass::H}};
inline const Words<OpeningSide> opening_sides = {{"left", OpeningSide::left},
                                                 {"right", OpeningSide::right},
                                                 {"top", OpeningSide::top},
                                                 {"floor", OpeningSide::floor},
                                                 {"back", OpeningSide::back}};
inline const Words<WayIn> ways_in = {{"slide", WayIn::slide}, {"lower", WayIn::lower}, {"tip", WayIn::tip}};
inline const Words<TargetRule> target_rules = {{"chance", TargetRule::chance},
                                               {"root-sum-square", TargetRule::root_sum_square},
                                               {"worst-case", TargetRule::worst_case}};
inline const Words<BuildStage> stages = {
    {"dry-fit", BuildStage::dry_fit}, {"as-welded", BuildStage::as_welded}, {"ground", BuildStage::ground}};
inline const Words<ItemKind> items = [] {
  Words<ItemKind> words;
  for (const ItemKind kind : kItemKinds)
    words.push_back({item_word(kind), kind});
  return words;
}();
inline const Words<Vec3> towards = {
    {"x", {1, 0, 0}}, {"-x", {-1, 0, 0}}, {"y", {0, 1, 0}}, {"-y", {0, -1, 0}}};
// The lines along which an opening is measured, in the order of NineReadings.
inline constexpr std::array<std::string_view, 3> width_lines = {"top", "middle", "under"};
inline constexpr std::array<std::string_view, 3> upright_lines = {"left", "middle", "right"};

} // namespace tacksquare::words
