// How the boxes of a row are called on its page. Used by the files that make that page.
#pragma once

#include "sheet/compose.h"

#include <string>
#include <vector>

namespace tacksquare {

// Name of the kind of box: "GEAR LOCKER".
std::string kind_name(const Plan& plan, const std::string& box);

// "1 to 3" or "1, 2 and 5": places in the row, from the left, that the test takes; empty when it takes none.
template <class Test> std::string places_where(const Composer& compose, const RowFit& row, const Test& test);

// Places in the row, each from 1 on: "1, 2 and 4 to 6".
std::string numbers(const Composer& compose, const std::vector<std::size_t>& places);

template <class Test> std::string places_where(const Composer& compose, const RowFit& row, const Test& test) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < row.stands.size(); ++i)
    if (test(row.stands[i])) places.push_back(i + 1);
  return numbers(compose, places);
}

// "under, back": where in the opening a reading was taken.
std::string place_in_opening(const Composer& compose, const std::string& at);

} // namespace tacksquare
