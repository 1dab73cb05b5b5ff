#include <gtest/gtest.h>

#include "record/kill_rounds.h"

namespace weatherstruck::record {
namespace {

TEST(Killed, AtTwentyFiveMomentsNoAcknowledgedEntryIsLostAndNoneIsHalfThere) {
  kill_and_look(25, 20260209);
}

}  // namespace
}  // namespace weatherstruck::record
