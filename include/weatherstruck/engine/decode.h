#pragma once
// From an order of tasks to a schedule: the serial decoder, and the list plan made with it.
#include <cstdint>
#include <memory>
#include <vector>

#include "weatherstruck/engine/schedule.h"

namespace weatherstruck::engine {

/// What stood in the way of a task while the decoder looked for its place.
struct Blocker {
  enum class Kind {
    link,       ///< waited for `id` (a link)
    cure,       ///< waited for cure link `id`
    clock,      ///< its work clock stood still; `cause` says why
    resource,   ///< resource `id` was taken or not there
    bucket,     ///< the day's amount of resource `id` was used up
    state,      ///< stateful `id` could not be in the wanted state
    guard,      ///< guard `id` of the way would be overrun
    keep,       ///< keep `id` could not be protected, or not uncovered in time
    span,       ///< it would be under way for too long
    short_run,  ///< the time left was too short for set-up and the first break
    order       ///< held back by the plan itself (Genes::not_before)
  };
  Kind kind{};
  int id = 0;
  CauseId cause = 0;
  Tick from = 0;  ///< the starts [from, to) that it ruled out
  Tick to = 0;
};

/// What the decoder is told beside the network.
struct Genes {
  std::vector<TaskId>
      order;             ///< all tasks; a task whose predecessors are later is held until they are placed
  std::vector<int> way;  ///< for each task: the way to use, or -1: whichever ends first
  std::vector<Tick> not_before;  ///< for each task
  std::vector<char> left_out;    ///< for each task: do not place it
};

struct Decoded {
  Schedule schedule;
  Value value;
  std::vector<std::vector<Blocker>>
      why;  ///< for each task, earliest first: what kept it from starting sooner; without a place: from any
            ///< start, by the way asked for or the first
  /// A most-link that a task could not meet: (link, first tick at which its `to` could otherwise be), or link
  /// -1.
  int missed_link = -1;
  Tick missed_at = never;
};

/// Places every task in turn as early as it goes. Never breaks a rule of docs/engine-model.md: what cannot be
/// placed is left out. Same input, same result.
/// @param reasons false: Decoded::why stays empty, and it is done sooner
[[nodiscard]] Decoded decode(const Network& network, const Genes& genes, bool reasons = true);

/// The same for many genes of one network: what hangs on the network alone is made once, and what two genes
/// begin alike is not done again. As `decode` to the byte, whatever was asked before.
class StandingDecoder {
 public:
  /// @param network must outlive it and stay as it is
  explicit StandingDecoder(const Network& network, bool reasons = false);
  ~StandingDecoder();
  StandingDecoder(const StandingDecoder&) = delete;
  StandingDecoder& operator=(const StandingDecoder&) = delete;
  StandingDecoder(StandingDecoder&&) noexcept;
  StandingDecoder& operator=(StandingDecoder&&) noexcept;
  /// Holds until it is asked again. Given a value, it gives up as soon as the schedule is sure to be worse:
  /// what it returns then is worse too, and lacks the tasks that come last.
  const Decoded& decode(const Genes& genes, const Value* no_worse_than = nullptr);

 private:
  std::unique_ptr<class Decoder> decoder_;
};

struct ListOptions {
  int schedules = 200;     ///< decodes after which nothing new is tried; the first rules (sixteen with their
                           ///< repairs) and taking in again what was left out may come on top
  std::uint64_t seed = 1;  ///< of the moves tried; same seed, same plan
  /// 0: goes on from the best of all rules; another number: from one of them alone, which one hangs on it.
  int beginning = 0;
  /// Tried before all others: what was planned yesterday. An empty order: none.
  Genes yesterday{};
};

struct ListPlan {
  Decoded best;
  Genes genes;
  int schedules = 0;  ///< decodes made
};

/// A good plan in a moment: several priority rules, repairs of missed most-links, alternative ways where
/// other tasks hang on them, and leaving out may- and should-tasks where must-tasks would be late.
/// @throws std::invalid_argument with the first fault if the network is not sound
[[nodiscard]] ListPlan plan_by_list(const Network& network, const ListOptions& options = {});

}  // namespace weatherstruck::engine
