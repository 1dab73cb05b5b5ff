#include "weatherstruck/files/csv_text.h"

#include <gtest/gtest.h>

namespace weatherstruck::files {
namespace {

// RFC 4180, section 2.
TEST(Csv, QuotesWhatWouldBeReadAsAnotherCell) {
  EXPECT_EQ(csv_row({"a", "", "c d"}), "a,,c d\r\n");
  EXPECT_EQ(csv_row({"a,b", "say \"no\"", "two\nlines"}), "\"a,b\",\"say \"\"no\"\"\",\"two\nlines\"\r\n");
}

}  // namespace
}  // namespace weatherstruck::files
