#include <gtest/gtest.h>

#include "record/kill_rounds.h"

namespace weatherstruck::record {
namespace {

TEST(Killed, AtThreeHundredMomentsNoAcknowledgedEntryIsLostAndNoneIsHalfThere) {
  kill_and_look(300, 20260210);
}

}  // namespace
}  // namespace weatherstruck::record
