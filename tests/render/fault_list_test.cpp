#include "weatherstruck/render/fault_list.h"

#include <gtest/gtest.h>

#include "render/sample.h"

namespace weatherstruck::render {
namespace {

const base::Faults faults{{"out-of-range", "/parts/0/width", "45 m", "0.2 to 1.5 m", "Check the number."},
                          {"unknown-key", "/job/nmae", "\"nmae\"", "name, title", "Write \"name\"."},
                          {"out-of-range", "/parts/1/width", "9 m", "0.2 to 1.5 m", "Check the number."}};

TEST(FaultList, PutsOneKindTogetherAndTheCountLast) {
  const LineOf lines = [](const std::string& place) -> std::optional<std::size_t> {
    if (place == "/job/nmae") return 4;
    return std::nullopt;
  };
  EXPECT_EQ(fault_list("shed.json", faults, lines),
            "/parts/0/width\n"
            "  found 45 m; allowed: 0.2 to 1.5 m.\n"
            "  Check the number.\n"
            "/parts/1/width\n"
            "  found 9 m; allowed: 0.2 to 1.5 m.\n"
            "  Check the number.\n"
            "line 4, /job/nmae\n"
            "  found \"nmae\"; allowed: name, title.\n"
            "  Write \"name\".\n"
            "\n"
            "shed.json: 3 faults, nothing done.\n");
}

TEST(FaultList, OfSomethingToBeDoneFirstIsThatSentenceAlone) {
  EXPECT_EQ(fault_list("who you are", {{"not-asked-yet", "", "", "", "Say first who you are."}}, {}),
            "Say first who you are.\n");
}

TEST(FaultList, LeavesOutWhatIsNotSaid) {
  EXPECT_EQ(advice_list({{"x", "", "", "", "Dig deeper."}}, {}), "  Dig deeper.\n");
}

}  // namespace
}  // namespace weatherstruck::render
