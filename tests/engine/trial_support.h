#pragma once
// The trial of random networks that the fast and the slow test share.
#include <cstdint>
#include <string>
#include <vector>

namespace weatherstruck::engine::brute {

/// In percent, a little below what is measured (95.8, 79.5 and 96.9 on the five thousand; 97.3, 76.6, 97.3 on
/// the first three hundred).
inline constexpr double least_share_placed = 94;
inline constexpr double least_share_as_good = 75;
inline constexpr double least_share_same_rule = 95;
/// Of five thousand begun networks: where only more work laid at once would save what lies, and the decoder
/// does not look ahead for it. Four are known.
inline constexpr int most_past_left_bare = 6;

struct Trial {
  int networks = 0;
  int unsettled = 0;           ///< the brute force gave up
  int feasible = 0;            ///< all must-tasks can be placed
  int decoder_places_all = 0;  ///< of those: the decoder places all must-tasks
  int decoder_as_good = 0;     ///< of those: and as little late, and as soon done
  int perturbed = 0;
  int perturbed_valid = 0;  ///< of those: still keep all rules
  int same_rule = 0;        ///< of the others: the checker names the rule that the simulator broke first
  double brute_seconds = 0;
  double decoder_seconds = 0;
  int decoder_breaks_rules = 0;  ///< schedules of the decoder that check() or replay() refuses
  int decoder_beats = 0;         ///< ... that are better than the best there is
  int checkers_differ = 0;       ///< schedules on which check() and replay() differ
  int other_faults = 0;          ///< values that differ, networks not sound, brute force refused
  int hopeless = 0;  ///< with history: no schedule keeps the rules any more, for what fresh work suffers
  int past_left_bare = 0;    ///< ... one does, but the decoder leaves work of before now to suffer too much
  int old_plan_stands = 0;   ///< ... the plan of before keeps the rules under the network with that history
  int old_plan_cut = 0;      ///< ... it does not have that history: a run of it was cut at now
  int old_plan_changes = 0;  ///< ... it changes a stateful thing before now
  std::vector<std::string> faults;  ///< the first twenty of all these, in words
  /// Of the networks in which all must-tasks can be placed: in how many percent the decoder places them all.
  [[nodiscard]] double share_placed() const;
  /// ... and in how many it is as good as can be.
  [[nodiscard]] double share_as_good() const;
  /// Of the broken schedules: in how many percent both checkers name the same rule.
  [[nodiscard]] double share_same_rule() const;
  [[nodiscard]] std::string report() const;
};

/// Networks first ... first + count - 1, each solved, decoded, checked and perturbed.
[[nodiscard]] Trial try_networks(std::uint64_t first, int count, int perturbations);

/// The same networks, each planned, begun until some tick and then tried with what was done by then; in one
/// of three what was done is not quite as it was planned.
[[nodiscard]] Trial try_histories(std::uint64_t first, int count, int perturbations);

}  // namespace weatherstruck::engine::brute
