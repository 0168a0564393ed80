#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    {"plain", "{text}"},
};
} // namespace

std::span<const Entry> words_steps_en() { return kWords; }

} // namespace tacksquare
