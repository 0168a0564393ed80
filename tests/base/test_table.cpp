// The reader of test data must fail loudly: a table that is not there would otherwise prove anything.
#include "support/catch.h"
#include "support/table.h"

using tacksquare::test::Table;

TEST_CASE("a table is read by the names of its columns") {
  const Table table("quantities.tsv", {"kind", "text"});
  CHECK(table[0].text("kind") == "length");
  CHECK(table[0].number("value") == 600.0);
  CHECK(table[0].integer("value") == 600);
}

TEST_CASE("a missing column fails the test", "[!shouldfail]") {
  Table("quantities.tsv", {"kind", "nowhere"});
}

TEST_CASE("a missing file fails the test", "[!shouldfail]") {
  Table("nowhere.tsv", {});
}

TEST_CASE("a cell that is no number fails the test", "[!shouldfail]") {
  const Table table("quantities.tsv", {"text"});
  static_cast<void>(table[0].number("text"));
}
