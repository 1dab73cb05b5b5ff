#include "engine/trial_support.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <tuple>

#include "engine/brute_force_support.h"
#include "engine/describe_support.h"
#include "engine/history_support.h"
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

/// Rules between which it is a matter of taste which one a broken schedule breaks: a run outside the horizon
/// has no sound shape, and one that ends nowhere in particular neither pauses nor does its amount.
Rule kin(Rule rule) {
  switch (rule) {
    case Rule::horizon:
      return Rule::shape;
    case Rule::pause:
      return Rule::amount;
    default:
      return rule;
  }
}

/// What is wrong with a schedule, by both checkers; empty if both are content.
std::string broken_in(const Network& network, const Schedule& schedule) {
  std::string text;
  for (const Violation& it : check(network, schedule))
    text += fmt::format(" check: {}: {};", to_text(it.rule), it.what);
  const Verdict verdict = replay(network, schedule);
  if (verdict.broken) {
    text += fmt::format(" replay: {} at {}: {};", to_text(verdict.broken->rule), verdict.broken->at,
                        verdict.broken->what);
  }
  return text;
}

std::tuple<int, std::int64_t, Tick> rank(const Value& value) {
  return {value.must_unplaced, value.must_late, value.finish};
}

class Judge {
 public:
  Judge(Trial& trial, std::uint64_t number, Network network)
      : trial_(trial), number_(number), network_(std::move(network)) {}

  void run(int perturbations) {
    ++trial_.networks;
    if (const auto faults = faults_of(network_); !faults.empty()) {
      return note(trial_.other_faults, "not sound: " + faults[0]);
    }
    Stopwatch brute_watch;
    const Answer least = brute_force(network_);
    trial_.brute_seconds += brute_watch.seconds();
    Stopwatch watch;
    const ListPlan plan = plan_by_list(network_);
    trial_.decoder_seconds += watch.seconds();

    // The decoder that found it kept what many tries began alike; one that starts anew must agree.
    if (decode(network_, plan.genes).schedule != plan.best.schedule)
      note(trial_.other_faults, "decoded anew, its genes give another plan");

    const bool suffered = suffers(least, plan.best);
    if (!suffered) judge_decoder(plan.best);
    if (least.found) judge_brute_force(least);
    if (!least.settled) {
      ++trial_.unsettled;
    } else if (!suffered) {
      compare(least, plan.best);
    }
    base::Random dice(number_, 23);
    for (int n = 0; n < perturbations; ++n) {
      const Schedule& whole = n % 2 == 0 || !least.found ? plan.best.schedule : least.schedule;
      Schedule changed = perturbed(network_, whole, dice);
      for (int again = 0; again < 20 && changed == whole; ++again)
        changed = perturbed(network_, whole, dice);
      agree_on(changed);
    }
  }

  /// The plan from before, under the network with the history that was taken from it.
  void judge_old(const Schedule& old) {
    const std::string broken = broken_in(network_, old);
    const Verdict verdict = replay(network_, old);
    if (broken.empty()) {
      ++trial_.old_plan_stands;
    } else if (verdict.broken && !same_past(old) &&
               (verdict.broken->rule == Rule::shape || verdict.broken->rule == Rule::release)) {
      ++trial_.old_plan_cut;
    } else if (verdict.broken && verdict.broken->rule == Rule::release && changes_before_now(old)) {
      ++trial_.old_plan_changes;
    } else {
      note(trial_.other_faults, "the plan of before no longer stands:" + broken);
    }
    agree_on(old);
  }

 private:
  [[nodiscard]] bool same_past(const Schedule& old) const {
    for (std::size_t i = 0; i < network_.tasks.size(); ++i) {
      const auto& past = network_.tasks[i].history.runs;
      const auto& runs = old.tasks[i].runs;
      if (past.size() > runs.size() || !std::equal(past.begin(), past.end(), runs.begin())) return false;
      if (past.size() < runs.size() && runs[past.size()].start < network_.now) return false;
    }
    return true;
  }
  [[nodiscard]] bool changes_before_now(const Schedule& old) const {
    return std::any_of(old.changes.begin(), old.changes.end(), [&](const auto& changes) {
      return !changes.empty() && changes.front().at < network_.now;
    });
  }

  /// Whether the plan breaks hazards and nothing else, because of what lay before now.
  bool suffers(const Answer& least, const Decoded& decoded) {
    if (network_.now == 0) return false;
    const auto violations = check(network_, decoded.schedule);
    const bool hazards =
        !violations.empty() && std::all_of(violations.begin(), violations.end(),
                                           [](const Violation& it) { return it.rule == Rule::hazard; });
    if (!hazards) return false;
    if (!least.settled) return true;
    ++(least.found ? trial_.past_left_bare : trial_.hopeless);
    return true;
  }

  void note(int& counter, const std::string& what) {
    ++counter;
    if (trial_.faults.size() < 20) trial_.faults.push_back(fmt::format("network {}: {}", number_, what));
  }

  void judge_decoder(const Decoded& decoded) {
    const std::string broken = broken_in(network_, decoded.schedule);
    if (broken.empty()) {
      if (decoded.value != value_of(network_, decoded.schedule) ||
          decoded.value != replay(network_, decoded.schedule).value) {
        note(trial_.other_faults, "the decoder states another value");
      }
      return;
    }
    const bool room = trial_.faults.size() < 20;
    note(trial_.decoder_breaks_rules, "the decoder breaks rules:" + broken);
    if (!room) return;
    const Network small = shrunk(
        network_, [](const Network& it) { return !broken_in(it, plan_by_list(it).best.schedule).empty(); });
    const Schedule schedule = plan_by_list(small).best.schedule;
    trial_.faults.back() += "\nthe smallest part of it that shows it:\n" + describe(small) + "its plan:\n" +
                            describe(small, schedule) + broken_in(small, schedule);
  }

  void judge_brute_force(const Answer& least) {
    const std::string broken = broken_in(network_, least.schedule);
    if (!broken.empty()) return note(trial_.other_faults, "the brute force breaks rules:" + broken);
    const Value value = value_of(network_, least.schedule);
    if (value != replay(network_, least.schedule).value ||
        rank(value) != std::tuple(least.must_unplaced, least.must_late, least.finish)) {
      note(trial_.other_faults, "the brute force states another value");
    }
  }

  void compare(const Answer& least, const Decoded& decoded) {
    if (!least.found && network_.now > 0) return;
    if (!least.found) return note(trial_.other_faults, "the brute force finds no schedule at all");
    const auto best = std::tuple(least.must_unplaced, least.must_late, least.finish);
    if (rank(decoded.value) < best) {
      note(trial_.decoder_beats, "the decoder beats the brute force\n" + describe(network_) + "its plan:\n" +
                                     describe(network_, decoded.schedule));
    }
    if (least.must_unplaced > 0) return;
    ++trial_.feasible;
    if (decoded.value.must_unplaced == 0) ++trial_.decoder_places_all;
    if (rank(decoded.value) == best) ++trial_.decoder_as_good;
  }

  void agree_on(const Schedule& schedule) {
    ++trial_.perturbed;
    const auto violations = check(network_, schedule);
    const Verdict verdict = replay(network_, schedule);
    if (violations.empty() != verdict.valid()) {
      note(trial_.checkers_differ, "one checker is content:" + broken_in(network_, schedule) + "\n" +
                                       describe(network_) + "schedule:\n" + describe(network_, schedule));
    } else if (verdict.valid()) {
      ++trial_.perturbed_valid;
      if (verdict.value != value_of(network_, schedule)) note(trial_.other_faults, "value_of differs");
    } else if (std::any_of(violations.begin(), violations.end(),
                           [&](const Violation& it) { return kin(it.rule) == kin(verdict.broken->rule); })) {
      ++trial_.same_rule;
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

double Trial::share_placed() const {
  return percent(decoder_places_all, feasible);
}
double Trial::share_as_good() const {
  return percent(decoder_as_good, feasible);
}
double Trial::share_same_rule() const {
  return percent(same_rule, perturbed - perturbed_valid);
}

std::string Trial::report() const {
  return fmt::format(
      "{} networks, {} not settled\n"
      "all musts can be placed in {} ({:.1f} %); there the decoder places all in {:.1f} %, and is as good as "
      "can be "
      "in {:.1f} %\n"
      "{} changed schedules, {} of them valid; of the rest both checkers name the same rule in {:.1f} %\n"
      "with history: hopeless {}, left bare by the decoder alone {}; the plan of before stands {}, was cut "
      "{}, changes things before now {}\n"
      "decoder breaks rules {}, beats the best {}; checkers differ {}; other faults {}\n"
      "brute force {:.1f} s, decoder {:.1f} s\n",
      networks, unsettled, feasible, percent(feasible, networks), share_placed(), share_as_good(), perturbed,
      perturbed_valid, share_same_rule(), hopeless, past_left_bare, old_plan_stands, old_plan_cut,
      old_plan_changes, decoder_breaks_rules, decoder_beats, checkers_differ, other_faults, brute_seconds,
      decoder_seconds);
}

Trial try_networks(std::uint64_t first, int count, int perturbations) {
  Trial trial;
  for (int n = 0; n < count; ++n) {
    const std::uint64_t number = first + static_cast<std::uint64_t>(n);
    Judge(trial, number, random_network(number)).run(perturbations);
  }
  return trial;
}

Trial try_histories(std::uint64_t first, int count, int perturbations) {
  Trial trial;
  for (int n = 0; n < count; ++n) {
    const std::uint64_t number = first + static_cast<std::uint64_t>(n);
    base::Random dice(number, 29);
    const Network network = random_network(number);
    const Schedule old = plan_by_list(network).best.schedule;
    Network begun = with_history(network, old, dice.between(1, network.horizon() - 1), dice);
    const bool as_planned = !dice.chance(0.33);
    if (!as_planned) done_otherwise(begun, dice);
    Judge judge(trial, number, std::move(begun));
    if (as_planned) judge.judge_old(old);
    judge.run(perturbations);
  }
  return trial;
}

}  // namespace weatherstruck::engine::brute
