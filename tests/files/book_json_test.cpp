#include "weatherstruck/files/book_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>
#include <variant>
#include <vector>

namespace weatherstruck::files {
namespace {

using namespace works;
using testing::HasSubstr;

base::Instant at(int minutes) {
  return base::Instant(std::chrono::seconds(1770624000 + 60 * minutes));
}
base::Money pounds(std::int64_t pence) {
  return {pence, *base::Currency::from_code("GBP")};
}

std::vector<What> one_of_each() {
  return {Begin{"shelter-courses-above-the-ground-and-a-long-name"},
          Done{"bed-lay", Whole{}},
          Done{"bed-lay", Courses{3}},
          Done{"bed-dig", Measured{0.4, "m3"}},
          Done{"bed-dig", Measured{120, ""}},
          Done{"bed-lay", Share{base::Fraction(0.6)}},
          StoodDown{"rain, and \"hail\"", at(0), at(90)},
          LevelRead{"shelter-north-footing", base::Metres(1.25), base::Metres(-0.31)},
          StockCount{"brick-facing", 312},
          Arrived{"cement", 14},
          Note{"two lines\nof words \xC3\xA9"},
          Expense{"angle bead", pounds(1240), "R-17"},
          Expense{"parking", pounds(400), std::nullopt},
          Extra{"a second tap post", "the owner", pounds(4500)},
          Extra{"moving pots", "", std::nullopt},
          CoverOn{"shelter", trade::CoverKind::hessian_and_sheet},
          CoverOff{"shelter", std::nullopt},
          CoverOff{"shelter", trade::CoverKind::mat},
          CanopyUp{"shelter"},
          CanopyDown{},
          Thermometer{base::Celsius(-2.5)},
          Gauge{base::Millimetres(4.2), at(-600)},
          Struck{}};
}

TEST(BookJson, GivesEveryKindOfEntryBackAsItWas) {
  std::set<std::size_t> kinds;
  for (const What& what : one_of_each()) {
    kinds.insert(what.index());
    EXPECT_EQ(what_of(kind_of(what), body_of(what).dump(), "book"), what) << kind_of(what);
  }
  EXPECT_EQ(kinds.size(), std::variant_size_v<What>);
}

TEST(BookJson, RefusesWhatANewerProgramMayHaveWritten) {
  const auto refusal = [](const std::string& kind, const std::string& body) {
    try {
      (void)what_of(kind, body, "wall");
    } catch (const base::InputError& error) {
      return std::string(error.what());
    }
    return std::string("taken");
  };
  EXPECT_THAT(refusal("photograph", "{}"), HasSubstr("photograph"));
  EXPECT_THAT(refusal("note", R"({"text": "a", "colour": 1})"), HasSubstr("colour"));
  EXPECT_THAT(refusal("begin", R"({"task": 3})"), HasSubstr("text"));
  EXPECT_THAT(refusal("done", R"({"task": "a", "amount": {}})"), HasSubstr("amount"));
  EXPECT_THAT(refusal("cover-on", R"({"part": "a", "kind": "tarpaulin"})"), HasSubstr("tarpaulin"));
  EXPECT_THAT(refusal("note", "{"), HasSubstr("wall"));
}

}  // namespace
}  // namespace weatherstruck::files
