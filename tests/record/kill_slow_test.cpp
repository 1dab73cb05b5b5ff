#include <gtest/gtest.h>

#include "record/kill_rounds.h"

namespace weatherstruck::record {
namespace {

TEST(Killed, AtAHundredAndFiftyMomentsNoAcknowledgedEntryIsLostAndNoneIsHalfThere) {
  kill_and_look(150, 20260210);
}

}  // namespace
}  // namespace weatherstruck::record
