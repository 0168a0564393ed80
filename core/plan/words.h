// The words of plan.xml for each enumerator, in the order of the enum.
#pragma once

#include "plan/plan.h"

#include <span>
#include <string_view>

namespace tacksquare {

std::span<const std::string_view> words_of(Who);
std::span<const std::string_view> words_of(Phase);
std::span<const std::string_view> words_of(ArgKind);
std::span<const std::string_view> words_of(Mark);
std::span<const std::string_view> words_of(TargetRule);
std::span<const std::string_view> words_of(PartVerdict);
std::span<const std::string_view> words_of(Release);

template <class E> std::string_view word_of(E value) {
  return words_of(value)[static_cast<std::size_t>(value)];
}

} // namespace tacksquare
