// A job file with what it may state in any order in another order. Only for test programs that link job/file.
#pragma once

#include "base/random.h"
#include "support/catch.h"

#include <cstdint>
#include <pugixml.hpp>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace tacksquare::test {

// Corners of an outline and stands in an opening keep their order.
inline void shuffle(pugi::xml_node node, Random& random) {
  std::vector<pugi::xml_node> children;
  for (const pugi::xml_node child : node.children())
    if (std::string(child.name()) != "point" && std::string(child.name()) != "stand")
      children.push_back(child);
  for (const pugi::xml_node child : children)
    shuffle(child, random);
  random.shuffle(children);
  for (const pugi::xml_node child : children)
    node.append_move(child);
  std::vector<std::pair<std::string, std::string>> attributes;
  for (const pugi::xml_attribute attribute : node.attributes())
    attributes.emplace_back(attribute.name(), attribute.value());
  random.shuffle(attributes);
  node.remove_attributes();
  for (const auto& [name, value] : attributes)
    node.append_attribute(name.c_str()).set_value(value.c_str());
}

inline std::string shuffled(const std::string& xml, std::uint64_t seed) {
  Random random(seed);
  pugi::xml_document document;
  REQUIRE(document.load_buffer(xml.data(), xml.size()));
  shuffle(document.document_element(), random);
  std::ostringstream out;
  document.save(out, " ", pugi::format_indent, pugi::encoding_utf8);
  return out.str();
}

} // namespace tacksquare::test
