// Tack and knock down. A closed box is tacked without its last face first, finished inside, then shut.
#include "base/ids.h"
#include "planning/planner/checks.h"
#include "planning/planner/fixture_steps.h"
#include "planning/planner/steps.h"

#include <algorithm>
#include <map>

namespace tacksquare {
namespace {

using TackRound = std::vector<const Tack*>;

std::vector<TackRound> rounds_of(const std::vector<const Tack*>& tacks) {
  std::map<int, TackRound> by_round;
  for (const Tack* tack : tacks)
    by_round[tack->round].push_back(tack);
  std::vector<TackRound> rounds;
  for (auto& [round, members] : by_round)
    rounds.push_back(std::move(members));
  return rounds;
}

// "at 150: S2, S4, S1, S3": one text for each stretch of tacks that lie at the same distance; "S9 at 50, 125,
// 200" for those on one seam.
std::vector<Text> round_text(const BoxCase& box, const TackRound& round) {
  std::vector<Text> texts;
  for (std::size_t i = 0; i < round.size();) {
    std::vector<std::string> seams;
    std::vector<Text> places;
    std::size_t across = i, along = i;
    for (; across < round.size() && round[across]->at_mm == round[i]->at_mm; ++across)
      seams.push_back(box.work.seams[round[across]->seam].id);
    for (; along < round.size() && round[along]->seam == round[i]->seam; ++along)
      places.push_back({"tacks.place", {length("at", round[along]->at_mm, "steel-rule")}});
    if (along > across)
      texts.push_back({"tacks.along", {word("seam", seams.front()), list("places", std::move(places))}});
    else
      texts.push_back({"tacks.at", {length("at", round[i]->at_mm, "steel-rule"), words("seams", seams)}});
    i = std::max(along, across);
  }
  return texts;
}

Step& write_rounds(const BoxCase& box, const std::vector<TackRound>& rounds, std::string key,
                   StepWriter& out) {
  std::vector<Text> places;
  std::vector<std::string> ids;
  for (const TackRound& round : rounds) {
    for (Text& text : round_text(box, round))
      places.push_back(std::move(text));
    for (const Tack* tack : round)
      ids.push_back(tack->id);
  }
  take_off(box, leaving_before_tacks(box, ids), "why.off-torch",
           !inside_runs(box).empty() && key == "step.tack-lid", out);
  const double seconds = box.work.crew.tack_s * static_cast<double>(ids.size());
  Step& step = out.add(Who::welder, std::move(key), {list("places", std::move(places))}, seconds);
  step.tacks = std::move(ids);
  return step;
}

Step& write_square_check(const BoxCase& box, Stage stage, std::string key, StepWriter& out) {
  std::vector<Check> checks = check_of_diagonals(box, stage);
  if (checks.empty()) { // no rectangle to read: every corner by itself
    const double look_s = box.work.crew.look_s * static_cast<double>(box.work.seams.size());
    return out.add(Who::grinder, key + "-faces", {}, look_s);
  }
  Step& step = out.add(Who::grinder, std::move(key), {}, 0);
  step.seconds = 2.0 * reading_time_s(box, checks); // both diagonals, read and written down
  step.checks = std::move(checks);
  return step;
}

enum class Dressed { all, inside, outside }; // of a closed box inside and outside go by themselves

// Down to the sheet where a disc gets at them; in an inside corner they stay, but for their ends.
void write_dressing(const BoxCase& box, Dressed which, StepWriter& out) {
  const auto add = [&](bool flat, const char* key, std::vector<Arg> args) {
    double tacks = 0.0;
    std::vector<std::string> seams;
    for (const Tack& tack : box.tacks) {
      const WorkSeam& seam = box.work.seams[tack.seam];
      if (tack.flat_after != flat || (which != Dressed::all && seam.inside != (which == Dressed::inside)))
        continue;
      tacks += 1.0;
      if (std::find(seams.begin(), seams.end(), seam.id) == seams.end()) seams.push_back(seam.id);
    }
    if (seams.empty()) return;
    std::sort(seams.begin(), seams.end(), id_before);
    args.push_back(count("tacks", tacks));
    args.push_back(list("seams", {seam_list(seams)}));
    out.add(Who::grinder, key, std::move(args), box.work.crew.knock_down_s * tacks).look =
        simple("look.knock-down");
  };
  add(false, "step.feather", {});
  add(true, "step.knock-down", {length("to", 0.5, "steel-rule")});
}

// Rim tacks, hold 1, second round, look again, the rest in one go.
void write_first_tacks(const BoxCase& box, const std::vector<const Tack*>& tacks, StepWriter& out) {
  const std::vector<TackRound> rounds = rounds_of(tacks);
  if (rounds.empty()) return;
  Step& rim = write_rounds(box, {rounds.front()}, "step.tack-rim", out);
  rim.who = Who::both;
  rim.look = simple("look.hold-flat");
  Step& hold = write_square_check(box, Stage::rim_tacked, "step.hold-fit-up", out);
  hold.hold = 1;
  hold.second = Who::welder;
  if (rounds.size() < 2) return;
  write_rounds(box, {rounds[1]}, "step.tack", out);
  write_square_check(box, Stage::fully_tacked, "step.diagonals-again", out);
  if (rounds.size() < 3) return;
  // Four seams are soon done; of more, one round a step.
  constexpr std::size_t kFew = 4;
  if (box.work.seams.size() <= kFew)
    write_rounds(box, {rounds.begin() + 2, rounds.end()}, "step.tack-rest", out);
  else
    for (std::size_t i = 2; i < rounds.size(); ++i)
      write_rounds(box, {rounds[i]}, "step.tack", out);
  out.last().look = simple("look.tacks");
}

void write_inside_and_lid(const BoxCase& box, const std::vector<const Tack*>& lid_tacks, StepWriter& out) {
  const std::string& last_face = *box.work.last_face;
  const std::vector<Text> face = {face_name(last_face)};
  const std::vector<OrderedRun> inside_welds = inside_runs(box);
  if (!inside_welds.empty()) {
    out.phase(Phase::knock_down);
    write_dressing(box, Dressed::inside, out);
    out.phase(Phase::weld);
    write_run_steps(box, inside_welds, tacking_attitude_index(box), false, out);
    out.phase(Phase::tack);
  }
  Step& inside = out.add(Who::both, "step.inside-finished", {list("face", face)}, 300);
  inside.look = simple("look.inside-clean");
  if (const Pieces tooling = pieces_inside(box);
      !tooling.empty()) { // also what came out before the inside welds
    Step& step =
        out.add(Who::grinder, "step.tooling-out", {count("all", static_cast<double>(tooling.size()))}, 120);
    step.record = simple("record.tooling");
    step.off = ids_of(box, counted_out(box));
  }
  std::vector<Text> vents;
  for (const Vent& hole : box.box.vents)
    vents.push_back({"vent.of",
                     {length("diameter", in_mm(hole.diameter), "steel-rule"),
                      word("face", box.box.faces[hole.face].id)}});
  Step& vent = out.add(Who::grinder, "step.vent-open", {list("vents", std::move(vents))}, 60);
  vent.odd = simple("why.vent");
  Step& lid = out.add(Who::both, "step.lid-trim", {list("face", face)}, 600);
  lid.look = simple("look.lid-trim");
  lid.checks = check_of_seams(box, MeasureKind::gap, Stage::dry, seams_of_last_face(box));
  for (const TackRound& round : rounds_of(lid_tacks))
    write_rounds(box, {round}, "step.tack-lid", out);
  out.last().look = simple("look.tacks");
}

} // namespace

std::vector<Text> tack_places(const BoxCase& box, int round) {
  TackRound tacks;
  for (const Tack& tack : box.tacks)
    if (tack.round == round) tacks.push_back(&tack);
  return round_text(box, tacks);
}

void write_tacking(const BoxCase& box, StepWriter& out) {
  out.phase(Phase::tack);
  std::vector<const Tack*> first, lid;
  const std::vector<std::size_t> last = seams_of_last_face(box);
  for (const Tack& tack : box.tacks)
    (std::find(last.begin(), last.end(), tack.seam) != last.end() ? lid : first).push_back(&tack);
  write_first_tacks(box, first, out);
  if (box.work.last_face) write_inside_and_lid(box, lid, out);

  out.phase(Phase::knock_down);
  take_off(box, leaving_before_knock_down(box), "why.off-grinder", !inside_runs(box).empty(), out);
  if (box.tacks.empty()) return;
  write_dressing(box, inside_runs(box).empty() ? Dressed::all : Dressed::outside, out);
  Step& step = out.last();
  step.meanwhile = simple("meanwhile.tip");
  step.safe_stop_after = true;
}

} // namespace tacksquare
