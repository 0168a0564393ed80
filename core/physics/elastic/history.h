// The box through its whole making: misfit, tacks, welds, clamps and stops, in the order in which things
// happen. Slower than weld_sequence, and exact where that is not: what the path changes.
#pragma once

#include "physics/elastic/box_model.h"

#include <functional>
#include <memory>
#include <vector>

namespace tacksquare::elastic {

// A clamp, stop, former or table that holds a reading (a figure of kind displacement or length).
struct Hold {
  Index reading = 0;
  double stiffness = 0.0;   // N/mm
  bool one_way = false;     // pushes back what stands beyond `at`, and never pulls
  std::optional<double> at; // where it holds; nothing: where the reading stands when it is put on
  // Of a piece that is not true by itself: how far off `at` it is for 1 mm of that.
  std::optional<std::size_t> piece{}; // Cases::piece
  double off = 0.0;
};

struct Event {
  enum class Kind {
    tack,  // gap closed at the tack by hand, then fused; then it shrinks
    weld,  // misfit frozen, then the length shrinks
    hold,  // put on
    let_go // taken off
  } kind = Kind::tack;
  std::size_t which = 0; // index in BoxModel::tacks, ::welds, or in the holds
  bool operator==(const Event&) const = default;
};

// Load cases side by side: misfits as the model has them, then three of each seam (1 mm across, 1 N along, 1
// rad), then one of each seam's tacks (1 mm across). Of a model with a second taper then three of each seam
// by that one: across, angle, the tacks' across. Then one of each piece that holds the box: 1 mm of its own.
struct Cases {
  std::size_t misfits = 0, seams = 0, pieces = 0;
  bool second_taper = false;
  Index count() const { return static_cast<Index>(misfits + (second_taper ? 7 : 4) * seams + pieces); }
  Index misfit(std::size_t i) const { return static_cast<Index>(i); }
  Index across(std::size_t seam) const { return static_cast<Index>(misfits + 3 * seam); }
  Index along(std::size_t seam) const { return across(seam) + 1; }
  Index angle(std::size_t seam) const { return across(seam) + 2; }
  Index tack(std::size_t seam) const { return static_cast<Index>(misfits + 3 * seams + seam); }
  Index second_across(std::size_t seam) const { return static_cast<Index>(misfits + 4 * seams + 3 * seam); }
  Index second_angle(std::size_t seam) const { return second_across(seam) + 1; }
  Index second_tack(std::size_t seam) const { return second_across(seam) + 2; }
  Index piece(std::size_t i) const { return count() - static_cast<Index>(pieces - i); }
};
Cases cases_of(const BoxModel& model, std::size_t seams);

struct Moment {
  Eigen::MatrixXd measures; // measures x columns
  // Of a tack, a column each; else empty: how far its gap stands open just before, on average along it
  // (negative: the edges lie over each other), and what presses it together.
  Eigen::VectorXd gap_mm, closing_N;
  Eigen::MatrixXd reactions; // holds x columns: positive where the hold pulls the reading back; zero when off
  Eigen::MatrixXd gives;     // of the measures that HistoryOptions names, under unit loads on them: mm/N
};

inline constexpr double kMelts = 0.5; // so much of a tack under a bead: it is molten

struct HistoryOptions {
  bool tacks_remelted = false; // a tack lets go of its force when the bead runs over it
  bool reactions = true;       // told; they are most of the work while tacks are few
  Index first_give = -1;       // BoxModel::measures from here on: Moment::gives is wanted; -1: of none
};

// Columns are combinations of the cases: amounts is cases x columns; identity for all cases by themselves.
// One-way holds need a single column, cases of a second taper a model that has it (InternalError). Throws
// NumericalFailure, also when stops neither stay on nor off.
std::vector<Moment> make_history(const BoxModel& model, const std::vector<Event>& events,
                                 const std::vector<Hold>& holds, const Cases& cases,
                                 const Eigen::MatrixXd& amounts, const HistoryOptions& options);

// What carries the box at the end of all that, under a single column of amounts: WholeBox has its shape.
struct EndState {
  std::vector<Spring> springs;
  Eigen::VectorXd loads; // on all readings
};
EndState end_of_history(const BoxModel& model, const std::vector<Event>& events,
                        const std::vector<Hold>& holds, const Cases& cases, const Eigen::VectorXd& amounts);

// Two ends of one beginning: `first` and `then` with tacks kept, and with tacks remelted; the beginning,
// which has no weld in it, is made once.
struct BothEnds {
  std::vector<Moment> kept, remelted;
};
BothEnds make_both_ends(const BoxModel& model, const std::vector<Event>& first,
                        const std::vector<Event>& then, const std::vector<Hold>& holds, const Cases& cases,
                        const Eigen::MatrixXd& amounts, Index first_give = -1);

// A beginning that is made once for many ends, of which only what is read last is told.
class Begun {
 public:
  // All must outlive it. Throws NumericalFailure.
  Begun(const BoxModel& model, const std::vector<Event>& first, const std::vector<Hold>& holds,
        const Cases& cases, const Eigen::MatrixXd& amounts);
  // Measures x columns when these have happened as well, tacks kept or remelted; no stops among them. Throws
  // NumericalFailure.
  Eigen::MatrixXd end(const std::vector<Event>& then, bool tacks_remelted) const;

 private:
  struct Parts;
  std::shared_ptr<const Parts> parts_;
};

class Grown;

// A joint has come or gone.
struct Change {
  enum class Kind {
    none, // as it begins
    tacked,
    taken_off, // tacks under a bead, before it is there
    welded
  } kind = Kind::none;
  std::size_t which = 0;            // tack or weld
  std::vector<std::size_t> tacks{}; // taken off
  std::vector<std::size_t> later{}; // lengths of a weld's seam that are still to come
};
using Onlooker = std::function<void(const Change&, const Grown&)>;

// make_both_ends with no holds and each case by itself, looked at: `kept` sees its beginning and the end with
// tacks kept, `remelted` the other end, at once with it; parting is called between first and then. also:
// readings that are looked at again and again, no figures or springs of welds among them.
void look_on_both_ends(const BoxModel& model, const std::vector<Event>& first, const std::vector<Event>& then,
                       const Cases& cases, const Indices& also, const Onlooker& kept,
                       const std::function<void()>& parting, const Onlooker& remelted);

} // namespace tacksquare::elastic
