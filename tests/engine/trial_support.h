#pragma once
// The trial of random networks that the fast and the slow test share.
#include <cstdint>
#include <string>
#include <vector>

namespace weatherstruck::engine::brute {

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
  std::vector<std::string> disagreements;  ///< at most 20, each with the number of its network
  [[nodiscard]] std::string report() const;
};

/// Networks first ... first + count - 1, each solved, decoded, checked and perturbed.
[[nodiscard]] Trial try_networks(std::uint64_t first, int count, int perturbations);

}  // namespace weatherstruck::engine::brute
