// Suggestions and fingerprints.
#include "support/catch.h"

#include "base/hash.h"
#include "base/random.h"
#include "base/suggest.h"

#include <set>

using namespace tacksquare;

TEST_CASE("edit distance counts the published examples") {
  // Levenshtein's textbook pairs; a swap of neighbours counts one (Damerau). Mark: published.
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("saturday", "sunday") == 3);
  CHECK(edit_distance("ab", "ba") == 1);
  CHECK(edit_distance("ca", "abc") == 3); // optimal string alignment; unrestricted would be 2
  CHECK(edit_distance("", "abc") == 3);
  CHECK(edit_distance("Seam", "sEAM") == 0);
}

TEST_CASE("edit distance is a distance: even both ways, and never over the longer word") {
  Random random(21);
  const auto word = [&random] {
    std::string text;
    for (std::uint64_t n = random.below(90); n > 0; --n)
      text += static_cast<char>('a' + random.below(4));
    return text;
  };
  for (int i = 0; i < 300; ++i) {
    const std::string a = word();
    const std::string b = word();
    const std::size_t distance = edit_distance(a, b);
    CHECK(distance == edit_distance(b, a));
    CHECK(distance <= std::max(a.size(), b.size()));
    CHECK(edit_distance(a, a) == 0);
  }
}

TEST_CASE("the nearest word is meant, a far one is not") {
  const std::vector<std::string> words{"seam", "sheet", "bend", "vent", "procedure", "box"};
  CHECK(closest("seem", words) == "seam");
  CHECK(closest("shete", words) == "sheet");
  CHECK(closest("proceduer", words) == "procedure");
  CHECK(closest("BOX", words) == "box");
  CHECK(closest("bent", words) == "bend"); // as near as vent: the earlier
  CHECK_FALSE(closest("weld", words) == "seam");
  CHECK_FALSE(closest("tolerance", words));
  CHECK_FALSE(closest("q", words));
  CHECK_FALSE(closest("", words));
  CHECK_FALSE(closest("seam", {}));
}

TEST_CASE("the hash is FNV-1a, 64 bit") {
  // Published test vectors of FNV.
  CHECK(stable_hash("") == 0xcbf29ce484222325u);
  CHECK(stable_hash("a") == 0xaf63dc4c8601ec8cu);
  CHECK(stable_hash("foobar") == 0x85944171f73967e8u);
  CHECK(stable_hash("bar", stable_hash("foo")) == stable_hash("foobar"));
}

TEST_CASE("a signature is twelve signs that cannot be misread, and tells hashes apart") {
  CHECK(signature_text(0) == "0000-0000-0000");
  CHECK(signature_text(31) == "0000-0000-000Z");
  CHECK(signature_text(std::uint64_t{1} << 60) == "0000-0000-0001"); // folded in, not dropped
  std::set<std::string> seen;
  for (int i = 0; i < 1000; ++i) {
    const std::string text = signature_text(stable_hash("plan " + std::to_string(i)));
    CHECK(text.size() == 14);
    CHECK(text.find_first_of("ILOU") == std::string::npos);
    seen.insert(text);
  }
  CHECK(seen.size() == 1000);
}
