#include "weatherstruck/trade/own_pace.h"

#include <gtest/gtest.h>

#include <cmath>

namespace weatherstruck::trade {
namespace {

// What strays before anything is logged is what it always was: the range over 5.126.
TEST(OwnPaces, ThePartsOfTheSpreadComeToTheWhole) {
  for (const OperationRow& row : operations()) {
    const PaceSpread spread = pace_spread(row);
    const double whole = std::log(row.hours_high / row.hours_low) / 5.126;
    EXPECT_NEAR(spread.known * spread.known + spread.trip * spread.trip + spread.task * spread.task,
                whole * whole, 1e-12)
        << row.key;
  }
}

TEST(OwnPaces, StandInTheOrderOfTheWorkAndAreSetAnew) {
  OwnPaces paces;
  EXPECT_TRUE(paces.empty());
  paces.set(Operation::pour, {1.2, 0.1});
  paces.set(Operation::dig, {0.9, 0.1});
  paces.set(Operation::pour, {1.3, 0.2});
  ASSERT_EQ(paces.all().size(), 2U);
  EXPECT_EQ(paces.all()[0].first, Operation::dig);
  EXPECT_EQ(paces.of(Operation::pour)->times, 1.3);
  EXPECT_EQ(paces.of(Operation::drive), nullptr);
}

}  // namespace
}  // namespace weatherstruck::trade
