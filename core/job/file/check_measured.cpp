#include "job/file/check_measured.h"

#include "base/numbers.h"
#include "job/file/check_opening.h"
#include "job/file/words.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare {

namespace {

constexpr double kFarSize = 0.05; // of the stated size
constexpr double kSuited = 0.1;   // of the stated width, made to suit an opening
constexpr double kRacked = 0.05;  // of a diagonal, that the other one is longer
constexpr double kOffSides = 0.01;
constexpr double kGrown_mm = 1.0; // welding pulls together, grinding takes off: more is no scatter of a rule

std::string shown(double value_mm) {
  return shortest(round_to(value_mm, 0.1)) + " mm";
}

std::string percent(double off) {
  return fixed(100.0 * std::abs(off), 1) + " % " + (off < 0.0 ? "less" : "more");
}

double mean_mm(const std::vector<Said<Length>>& readings) {
  double sum = 0.0;
  for (const Said<Length>& reading : readings)
    sum += in_mm(reading.value);
  return sum / static_cast<double>(readings.size());
}

class SizeCheck {
 public:
  SizeCheck(const SizesSaid& said, const Box* box, bool gives_way, std::optional<Length> size_under,
            Diagnostics& out)
      : said_(said), box_(box), gives_way_(gives_way), out_(out) {
    if (gives_way_ && box_ && box_->width)
      under_ = std::max(kSuited, kFarSize + size_under.value_or(mm(0)) / *box_->width);
  }

  // False when some were told.
  bool sizes() {
    bool likely = true;
    const std::array stated = {box_ ? box_->width : std::nullopt, box_ ? box_->height : std::nullopt,
                               box_ ? box_->depth : std::nullopt};
    for (std::size_t i = 0; i < stated.size(); ++i) {
      bool far = false;
      if (stated[i])
        for (const Said<Length>& reading : said_.sizes[i])
          far = off_stated(reading, in_mm(*stated[i]), i == 0 && gives_way_) || far;
      if (!stated[i] || (i == 0 && gives_way_ && !far))
        far = !check_alike(said_.sizes[i], "size", Severity::error, out_).empty() || far;
      likely = likely && !far;
    }
    return likely;
  }

  void diagonals() {
    const auto stated = sides(false);
    bool far = false;
    for (const auto& diagonal : {said_.up_right, said_.up_left})
      if (diagonal && stated)
        far = off_stated(*diagonal, std::hypot(stated->first, stated->second), gives_way_) || far;
    if (!far && !racked_too_far()) against_sides();
  }

 private:
  // Reported when it is.
  bool off_stated(const Said<Length>& reading, double stated_mm, bool suited) {
    const double off = in_mm(reading.value) / stated_mm - 1.0;
    if (off <= (suited ? kSuited : kFarSize) && off >= -(suited ? under_ : kFarSize)) return false;
    out_.error("size-far", reading.where,
               "this size is " + percent(off) + " than the box has, " + shown(stated_mm), kMeasureAgain);
    return true;
  }

  bool racked_too_far() {
    if (!said_.up_right || !said_.up_left) return false;
    const double a = in_mm(said_.up_right->value), b = in_mm(said_.up_left->value);
    if (std::abs(a - b) <= kRacked * std::max(a, b)) return false;
    out_.error("diagonals-apart", said_.up_left->where,
               "the two diagonals are " + shown(std::abs(a - b)) + " apart: no box racks by so much",
               kMeasureAgain, Note{"the other one", said_.up_right->where});
    return true;
  }

  // Racked or not, the squares of both diagonals are together those of the four sides.
  void against_sides() {
    const auto own = sides(true);
    if (!own || (!said_.up_right && !said_.up_left)) return;
    const double a = in_mm((said_.up_right ? said_.up_right : said_.up_left)->value),
                 b = in_mm((said_.up_left ? said_.up_left : said_.up_right)->value);
    const double square = std::hypot(own->first, own->second),
                 off = std::hypot(a, b) / std::sqrt(2.0) / square - 1.0;
    if (std::abs(off) <= kOffSides) return;
    out_.caution("diagonal-odd", (said_.up_right ? said_.up_right : said_.up_left)->where,
                 (said_.up_right && said_.up_left ? "the diagonals are " : "this diagonal is ") +
                     percent(off) + " than sides of " + shown(own->first) + " and " + shown(own->second) +
                     " have, " + shown(square),
                 "measure again, outside from corner to corner");
  }

  // Width and height of the opening's face, mm: stated; or measured with these diagonals, and where not
  // stated.
  std::optional<std::pair<double, double>> sides(bool measured) const {
    if (!box_ || box_->open_side.empty()) return {};
    const std::size_t across = box_->open_side == "T" ? 2 : 1;
    const auto side = [&](std::size_t i, std::optional<Length> stated,
                          bool may_differ) -> std::optional<double> {
      if (measured && !said_.sizes[i].empty()) return mean_mm(said_.sizes[i]);
      if (!stated || (measured && may_differ)) return {};
      return in_mm(*stated);
    };
    const auto wide = side(0, box_->width, gives_way_);
    const auto tall = side(across, across == 2 ? box_->depth : box_->height, false);
    if (!wide || !tall) return {};
    return std::pair(*wide, *tall);
  }

  const SizesSaid& said_;
  const Box* box_;
  bool gives_way_;
  double under_ = kSuited;
  Diagnostics& out_;
};

} // namespace

bool check_sizes(const SizesSaid& said, const Box* box, bool gives_way, std::optional<Length> size_under,
                 Diagnostics& out) {
  SizeCheck check(said, box, gives_way, size_under, out);
  check.diagonals();
  return check.sizes();
}

void check_stages(const std::vector<SizesSaid>& all, Diagnostics& out) {
  for (std::size_t i = 0; i < kSizeNames.size(); ++i) {
    const SizesSaid* before = nullptr;
    for (const BuildStage stage : {BuildStage::dry_fit, BuildStage::as_welded, BuildStage::ground}) {
      const auto now = std::find_if(all.begin(), all.end(), [&](const SizesSaid& said) {
        return said.stage == stage && !said.sizes[i].empty();
      });
      if (now == all.end()) continue;
      if (before) {
        const double grown = mean_mm(now->sizes[i]) - mean_mm(before->sizes[i]);
        if (grown > kGrown_mm)
          out.caution("stages-grow", now->sizes[i].front().where,
                      std::string(kSizeNames[i]) + " are " + shown(grown) + " larger than at " +
                          word_of(words::stages, *before->stage) +
                          ": welding and grinding make no box larger by so much",
                      "measure again, or correct the stage",
                      Note{"measured before", before->sizes[i].front().where});
      }
      before = &*now;
    }
  }
}

} // namespace tacksquare
