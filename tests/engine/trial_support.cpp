#include "engine/trial_support.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <tuple>

#include "engine/brute_force_support.h"
#include "engine/perturb_support.h"
#include "engine/random_network_support.h"
#include "weatherstruck/engine/decode.h"

namespace weatherstruck::engine::brute {
namespace {

class Stopwatch {
 public:
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
  }

 private:
  std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

class Judge {
 public:
  Judge(Trial& trial, std::uint64_t number)
      : trial_(trial), number_(number), network_(random_network(number)) {}

  void run(int perturbations) {
    ++trial_.networks;
    if (const auto faults = faults_of(network_); !faults.empty()) return note("not sound: " + faults[0]);
    Stopwatch brute_watch;
    const Answer least = brute_force(network_);
    trial_.brute_seconds += brute_watch.seconds();
    Stopwatch watch;
    const ListPlan plan = plan_by_list(network_);
    trial_.decoder_seconds += watch.seconds();

    must_keep_rules("decoder", plan.best.schedule);
    if (plan.best.value != value_of(network_, plan.best.schedule)) note("the decoder states another value");
    if (least.found) must_keep_rules("brute force", least.schedule);
    if (!least.settled) {
      ++trial_.unsettled;
    } else {
      compare(least, plan.best.value);
    }
    base::Random dice(number_, 23);
    for (int n = 0; n < perturbations; ++n) {
      const Schedule& whole = n % 2 == 0 || !least.found ? plan.best.schedule : least.schedule;
      Schedule changed = perturbed(network_, whole, dice);
      for (int again = 0; again < 20 && changed == whole; ++again)
        changed = perturbed(network_, whole, dice);
      agree_on(changed, n);
    }
  }

 private:
  void note(const std::string& what) {
    if (trial_.disagreements.size() < 20) {
      trial_.disagreements.push_back(fmt::format("network {}: {}", number_, what));
    }
  }

  void must_keep_rules(const std::string& whose, const Schedule& schedule) {
    for (const Violation& violation : check(network_, schedule)) {
      note(fmt::format("{}: check: {}: {}", whose, to_text(violation.rule), violation.what));
    }
    const Verdict verdict = replay(network_, schedule);
    if (verdict.broken) {
      note(fmt::format("{}: replay: {} at {}: {}", whose, to_text(verdict.broken->rule), verdict.broken->at,
                       verdict.broken->what));
    } else if (verdict.value != value_of(network_, schedule)) {
      note(whose + ": value_of differs from the value simulated");
    }
  }

  void compare(const Answer& least, const Value& value) {
    if (!least.found) return note("the brute force finds no schedule at all");
    const auto best = std::tuple(least.must_unplaced, least.must_late, least.finish);
    const auto decoded = std::tuple(value.must_unplaced, value.must_late, value.finish);
    if (decoded < best) note("the decoder beats the brute force");
    if (least.must_unplaced > 0) return;
    ++trial_.feasible;
    if (value.must_unplaced == 0) ++trial_.decoder_places_all;
    if (decoded == best) ++trial_.decoder_as_good;
  }

  void agree_on(const Schedule& schedule, int n) {
    ++trial_.perturbed;
    const auto violations = check(network_, schedule);
    const Verdict verdict = replay(network_, schedule);
    if (violations.empty() && verdict.valid()) {
      ++trial_.perturbed_valid;
      if (verdict.value != value_of(network_, schedule))
        note(fmt::format("perturbed {}: value_of differs", n));
    } else if (violations.empty()) {
      note(fmt::format("perturbed {}: check is content, replay: {} at {}: {}", n,
                       to_text(verdict.broken->rule), verdict.broken->at, verdict.broken->what));
    } else if (verdict.valid()) {
      note(fmt::format("perturbed {}: replay is content, check: {}: {}", n, to_text(violations[0].rule),
                       violations[0].what));
    } else if (std::any_of(violations.begin(), violations.end(),
                           [&](const Violation& it) { return it.rule == verdict.broken->rule; })) {
      ++trial_.same_rule;
    } else if (getenv("RULES")) {
      printf("R replay %s check %s\n", to_text(verdict.broken->rule), to_text(violations[0].rule));
    }
  }

  Trial& trial_;
  std::uint64_t number_;
  Network network_;
};

double percent(int part, int whole) {
  return whole == 0 ? 0 : 100.0 * part / whole;
}

}  // namespace

std::string Trial::report() const {
  return fmt::format(
      "{} networks, {} not settled; all musts can be placed in {} ({:.1f} %); of these the decoder places "
      "all in "
      "{} ({:.1f} %) and is as good as can be in {} ({:.1f} %); {} perturbed schedules, {} of them valid, "
      "rule "
      "named alike in {:.1f} % of the rest; brute force {:.1f} s, decoder {:.1f} s",
      networks, unsettled, feasible, percent(feasible, networks), decoder_places_all,
      percent(decoder_places_all, feasible), decoder_as_good, percent(decoder_as_good, feasible), perturbed,
      perturbed_valid, percent(same_rule, perturbed - perturbed_valid), brute_seconds, decoder_seconds);
}

Trial try_networks(std::uint64_t first, int count, int perturbations) {
  Trial trial;
  for (int n = 0; n < count; ++n) {
    Judge(trial, first + static_cast<std::uint64_t>(n)).run(perturbations);
  }
  return trial;
}

}  // namespace weatherstruck::engine::brute
