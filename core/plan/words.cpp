#include "plan/words.h"

namespace tacksquare {
namespace {
using namespace std::string_view_literals;

constexpr std::string_view kWho[] = {"welder"sv, "grinder"sv, "both"sv, "foreman"sv};
constexpr std::string_view kPhase[] = {"check-parts"sv, "prepare"sv,     "mark"sv,    "coupon"sv,
                                       "set-up"sv,      "dry-fit"sv,     "tack"sv,    "knock-down"sv,
                                       "weld"sv,        "cool"sv,        "release"sv, "check"sv,
                                       "grind"sv,       "final-check"sv, "sign"sv};
constexpr std::string_view kArgKind[] = {
    "word"sv,          "term"sv,         "list"sv,       "count"sv,      "ratio"sv,          "chance"sv,
    "length-mm"sv,     "fine-mm"sv,      "area-mm2"sv,   "volume-mm3"sv, "angle-deg"sv,      "time-s"sv,
    "temperature-c"sv, "difference-k"sv, "mass-kg"sv,    "mass-g"sv,     "wire-feed-mm-s"sv, "travel-mm-s"sv,
    "current-a"sv,     "voltage-v"sv,    "flow-l-min"sv, "gas-l"sv,      "heat-j-mm"sv,      "force-n"sv,
    "pressure-kpa"sv,  "pace-min-m"sv};
constexpr std::string_view kMark[] = {"published"sv,   "standard"sv,        "derived"sv,
                                      "from-memory"sv, "common-practice"sv, "stated"sv};
constexpr std::string_view kTargetRule[] = {"chance"sv, "root-sum-square"sv, "worst-case"sv};
constexpr std::string_view kPartVerdict[] = {"use"sv, "dress"sv, "back-to-brake"sv, "reject"sv};
constexpr std::string_view kRelease[] = {"release"sv, "correct"sv, "hold"sv};

static_assert(std::size(kPhase) == static_cast<std::size_t>(Phase::sign) + 1);
static_assert(std::size(kArgKind) == static_cast<std::size_t>(ArgKind::pace_min_m) + 1);
static_assert(std::size(kMark) == static_cast<std::size_t>(Mark::stated) + 1);
static_assert(std::size(kTargetRule) == static_cast<std::size_t>(TargetRule::worst_case) + 1);
static_assert(std::size(kPartVerdict) == static_cast<std::size_t>(PartVerdict::reject) + 1);
static_assert(std::size(kRelease) == static_cast<std::size_t>(Release::hold) + 1);
} // namespace

std::span<const std::string_view> words_of(Who) {
  return kWho;
}
std::span<const std::string_view> words_of(Phase) {
  return kPhase;
}
std::span<const std::string_view> words_of(ArgKind) {
  return kArgKind;
}
std::span<const std::string_view> words_of(Mark) {
  return kMark;
}
std::span<const std::string_view> words_of(TargetRule) {
  return kTargetRule;
}
std::span<const std::string_view> words_of(PartVerdict) {
  return kPartVerdict;
}
std::span<const std::string_view> words_of(Release) {
  return kRelease;
}

} // namespace tacksquare
