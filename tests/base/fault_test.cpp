#include "weatherstruck/base/fault.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace weatherstruck::base {
namespace {

Fault height_fault() {
  return {"out-of-range", "/parts/2/height", "40 m", "0.1 to 3 m", "Give the height in metres."};
}

TEST(Fault, ReadsAsOneLine) {
  EXPECT_EQ(to_text(height_fault()),
            "/parts/2/height: found 40 m; allowed: 0.1 to 3 m. Give the height in metres.");
}

TEST(Fault, LeavesOutWhatIsEmpty) {
  EXPECT_EQ(to_text({"c", "--now", "", "a time", "Write it."}), "--now: allowed: a time. Write it.");
  EXPECT_EQ(to_text({"c", "", "x", "", "Drop it."}), "found x. Drop it.");
  EXPECT_EQ(to_text({"c", "line 3", "x", "y", ""}), "line 3: found x; allowed: y");
  EXPECT_EQ(to_text({"c", "line 3", "", "", ""}), "line 3");
}

TEST(Fault, NeverBreaksTheLineOrSendsControlCharacters) {
  EXPECT_EQ(to_text({"c", "/a", "x\n\ty\x1b[1m\x7f", "z", "w"}), "/a: found x  y [1m ; allowed: z. w");
}

TEST(InputError, CarriesEveryFaultAndSaysThemAll) {
  const InputError error("job.json", {height_fault(), {"unknown-key", "/colour", "colour", "", "Drop it."}});
  EXPECT_EQ(error.faults().size(), 2U);
  EXPECT_EQ(error.source(), "job.json");
  EXPECT_STREQ(error.what(),
               "job.json: 2 faults\n"
               "  /parts/2/height: found 40 m; allowed: 0.1 to 3 m. Give the height in metres.\n"
               "  /colour: found colour. Drop it.");
  EXPECT_STREQ(InputError("-", {{"c", "/a", "", "", "Drop it."}}).what(), "-: 1 fault\n  /a: Drop it.");
}

TEST(InputError, NeedsAFault) {
  EXPECT_THROW(InputError("job.json", {}), std::invalid_argument);
}

}  // namespace
}  // namespace weatherstruck::base
