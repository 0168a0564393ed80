#include "sheet/catalogue.h"

namespace tacksquare {

namespace {
constexpr Entry kWords[] = {
    {"plain.figure", "{text}"},
};
} // namespace

std::span<const Entry> words_figures_en() { return kWords; }

} // namespace tacksquare
