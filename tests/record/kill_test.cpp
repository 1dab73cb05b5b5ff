#include <gtest/gtest.h>

#include "record/kill_rounds.h"

namespace weatherstruck::record {
namespace {

TEST(Killed, AtTwentyFiveMomentsNoAcknowledgedEntryIsLostAndNoneIsHalfThere) {
  kill_and_look(25, 20260209);
}

TEST(Killed, AFileInUseIsNotTakenForOneLeftBehind) {
  look_while_it_runs_and_after();
}

TEST(Killed, WhilePackingAndBringingInNothingIsHalfThere) {
  kill_packing_and_look(6, 20260209);
}

}  // namespace
}  // namespace weatherstruck::record
