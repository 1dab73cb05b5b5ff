#include "weatherstruck/render/promise_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/hindrance_words.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::render {
namespace {

using programme::Forbids;

constexpr std::size_t label = 14;

std::string home_time(const TripFacts& facts, base::Instant t) {
  return base::day_and_time(facts.job.trip.home_zone.to_local(t));
}

std::string best_found(const TripFacts& facts) {
  const programme::Plan& plan = facts.plan;
  std::string text = "no way found to be home";
  if (plan.home) {
    const bool late = plan.in_hand.count() < 0;
    text = fmt::format("home {}, {} {}", home_time(facts, *plan.home),
                       duration(late ? -plan.in_hand : plan.in_hand), late ? "late" : "in hand");
  }
  const auto musts = std::count_if(plan.left_out.begin(), plan.left_out.end(), [&](const works::Name& name) {
    const works::Task* task = facts.list.find(name);
    return task == nullptr || task->importance == works::Importance::must;
  });
  if (musts > 0) text += fmt::format(", without {} that must be done", count_of(musts, "task"));
  return text + ".";
}

std::string mark_words(const TripFacts& facts, const Forbids& one) {
  if (one.mark == Forbids::Mark::not_settled) return "not settled";
  const std::string home = one.home ? ", home " + home_time(facts, *one.home) : std::string();
  return one.alone ? "needed: " + without_words(facts.job, one.hindrance) + home
                   : "needed, once what is not among them is lifted" + home;
}

std::string fallback_words(const works::Fallback& fallback) {
  const std::string part = "the " + works::spoken(fallback.part);
  switch (fallback.kind) {
    case works::Fallback::Kind::drop:
      return "without " + part;
    case works::Fallback::Kind::gravel_for_flags:
      return "with gravel for flags on " + part;
    case works::Fallback::Kind::one_course_lower:
      return part + " one course lower";
  }
  return {};
}

// A list of every night and wait is more than anybody reads.
std::vector<std::string> drawn_together(const TripFacts& facts,
                                        const std::vector<programme::Hindrance>& all) {
  using Kind = programme::Hindrance::Kind;
  std::vector<std::string> out;
  std::vector<Kind> told;
  for (const programme::Hindrance& one : all) {
    const auto alike =
        std::count_if(all.begin(), all.end(), [&](const auto& other) { return other.kind == one.kind; });
    const bool many = alike > 1 && one.kind != Kind::part;
    if (!many) {
      out.push_back(hindrance_words(facts.job, one));
      continue;
    }
    if (std::find(told.begin(), told.end(), one.kind) != told.end()) continue;
    told.push_back(one.kind);
    const char* what = one.kind == Kind::rain   ? "the rain of {} days"
                       : one.kind == Kind::cold ? "the cold of {} nights"
                       : one.kind == Kind::heat ? "the heat of {} days"
                       : one.kind == Kind::wind ? "the wind of {} days"
                       : one.kind == Kind::wait ? "{} waits on fresh work"
                                                : "the joints of {} parts";
    out.push_back(fmt::format(fmt::runtime(what), alike));
  }
  return out;
}

void instead(Page& page, const TripFacts& facts, const programme::Instead& it) {
  std::vector<std::string> how;
  for (const works::Fallback& fallback : it.used)
    how.push_back(fallback_words(fallback));
  for (const works::Name& part : it.without)
    how.push_back("without the " + works::spoken(part));
  std::string text = how.empty() ? std::string("as it is") : base::join_and(how);
  page.item("Home in time", capital(text) + ": home " + home_time(facts, it.home) + ".", label);
  if (it.left_out.empty()) return;
  constexpr std::size_t most_named = 3;
  std::vector<std::string> tasks;
  for (const works::Name& name : it.left_out) {
    const works::Task* task = facts.list.find(name);
    tasks.push_back("\"" + (task == nullptr ? works::spoken(name) : works::short_title(*task)) + "\"");
  }
  if (tasks.size() > most_named + 1) {
    const std::size_t more = tasks.size() - most_named;
    tasks.resize(most_named);
    tasks.push_back(fmt::format("{} more", more));
  }
  page.item("", "Left for another time, since it need not be done now: " + base::join_and(tasks) + ".",
            label);
}

}  // namespace

std::string promise_sheet(const TripFacts& facts, const programme::Promise* promise, Ink ink) {
  Page page(ink);
  page.title("Why not home in time", facts.job.title);
  page.text(warning(facts));
  page.gap();
  page.item("Promised", home_time(facts, facts.job.trip.home_by), label);
  page.item("By the plan", best_found(facts), label);
  if (facts.plan.soonest_home)
    page.item("Soonest",
              fmt::format("by this forecast nobody who does what must be done can be home before {}.",
                          home_time(facts, *facts.plan.soonest_home)),
              label);
  if (promise == nullptr) {
    page.gap();
    page.text("The promise is kept: nothing forbids it.");
    return page.str();
  }
  if (promise->kept_after_all) {
    page.gap();
    page.text(
        fmt::format("Nothing forbids it: another search found a plan that is home {}. Plan again with "
                    "--seed and another number.",
                    home_time(facts, *promise->kept_after_all)));
    return page.str();
  }
  if (promise->together.empty()) {
    page.gap();
    page.text("No one thing forbids it: it is the work itself, with everything lifted that can be.");
  } else {
    page.heading("Together these forbid it");
    Table table({{"", Table::Kind::left}, {"", Table::Kind::wrapped}});
    for (const Forbids& one : promise->together)
      table.add({hindrance_words(facts.job, one.hindrance), mark_words(facts, one)});
    page.table(table);
  }
  page.gap();
  if (!promise->beside.empty()) {
    const std::vector<std::string> words = drawn_together(facts, promise->beside);
    page.item("Not among them", base::join_and(words) + ".", label + 2);
    page.item("",
              promise->proved
                  ? "Without all of that at once it can still not be kept; that is proved."
                  : "Without all of that at once no plan was found that keeps it; that is not proved.",
              label + 2);
    page.gap();
  }
  if (promise->instead) {
    instead(page, facts, *promise->instead);
  } else {
    page.item("Home in time", "no part of the work was found that could be.", label);
  }
  page.gap();
  page.text(
      fmt::format("\"Needed\": without it a plan was found that keeps the promise. Found with {} plans, each "
                  "a short search.",
                  promise->plans));
  return page.str();
}

}  // namespace weatherstruck::render
