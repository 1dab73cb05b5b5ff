// Work besides, what may wait, and the price.
#include <algorithm>

#include "job_ask.h"
#include "job_change.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/works/check.h"

namespace weatherstruck::desk {

using works::Answer;
using works::Refused;

namespace {

constexpr int most_extras = 12;

}  // namespace

void JobAsk::extras() {
  for (int n = 1; n <= most_extras; ++n) {
    using Maybe = std::optional<works::ExtraSaid>;
    const Maybe said =
        talk_.ask<Maybe>({"else-" + std::to_string(n),
                          n == 1 ? "Anything else to be done there?" : "Anything else?", "nothing",
                          "With the hours it takes one person, such as hang the gate, 2 hours. It is fitted "
                          "in where there is time."},
                         works::extra_answer, std::optional<Maybe>(Maybe()));
    if (!said) return;
    works::ExtraTask task;
    task.title = said->title;
    task.hours = said->hours;
    task.name = works::name_from(said->title).substr(0, 34);
    // Names that parts, other tasks or the list of work itself have are told apart.
    const works::Name wanted = task.name;
    const auto taken = [&] {
      works::Job probe = job_;
      probe.tasks.push_back(task);
      const std::string place = "/tasks/" + std::to_string(job_.tasks.size()) + "/name";
      const auto faults = works::check(probe).faults;
      return std::any_of(faults.begin(), faults.end(),
                         [&](const auto& fault) { return fault.place == place; }) ||
             std::any_of(job_.parts.begin(), job_.parts.end(),
                         [&](const works::Part& part) { return works::name_of(part) == task.name; });
    };
    for (int i = 2; taken() && i < 100; ++i)
      task.name = "own-" + wanted + (i == 2 ? "" : "-" + std::to_string(i - 1));
    job_.tasks.push_back(std::move(task));
  }
}

void JobAsk::waiting() {
  // The strip of a wall waits with it.
  std::vector<std::string> names;
  for (const works::Part& part : job_.parts) {
    if (!std::holds_alternative<works::Footing>(part)) names.push_back(works::name_of(part));
  }
  if (names.size() < 2) return;
  talk_.heading("If it turns");
  const std::string all = base::join_and(names);
  const auto chosen = talk_.ask<std::vector<std::string>>(
      {"may-wait", "If time runs out, what may be left for another trip?", "nothing",
       "Of " + all + ", the one that goes first first."},
      [&](auto said) -> Answer<std::vector<std::string>> {
        if (works::says_none(said)) return std::vector<std::string>();
        std::vector<std::string> out;
        for (const std::string& piece : works::pieces_of(said)) {
          const auto name = part_called(piece, names);
          if (!name || std::find(out.begin(), out.end(), *name) != out.end())
            return Refused{"some of " + all + ", each once; or nothing"};
          out.push_back(*name);
        }
        return out;
      },
      std::vector<std::string>());
  // What he names first goes first; the document lists parts in their own order.
  for (const std::string& name : names) {
    const auto at = std::find(chosen.begin(), chosen.end(), name);
    if (at == chosen.end()) continue;
    const auto importance = at == chosen.begin() ? works::Importance::may : works::Importance::should;
    job_.importance.push_back({name, importance});
    for (const works::Part& part : job_.parts) {
      const auto* wall = std::get_if<works::Wall>(&part);
      if (wall != nullptr && wall->name == name) job_.importance.push_back({wall->footing, importance});
    }
  }
  for (const works::Part& part : job_.parts) {
    const auto* path = std::get_if<works::Path>(&part);
    if (path == nullptr || path->surface != trade::Surface::flags) continue;
    if (std::find(chosen.begin(), chosen.end(), path->name) == chosen.end()) continue;
    const auto currency =
        me_.rates ? me_.rates->currency
                  : *base::Currency::from_code(me_.me.limits.set == trade::LimitSet::us ? "USD" : "GBP");
    using Less = std::optional<base::Money>;
    const Less less = talk_.ask<Less>(
        {"gravel", "Gravel for the flags instead: how much less would it be?", "no gravel",
         "What comes off the bill if the path is laid in gravel, such as 120."},
        [currency](auto said) -> Answer<Less> {
          if (works::says_none(said)) return Less();
          auto answer = works::money_answer(said, currency);
          if (auto* refused = std::get_if<Refused>(&answer)) return Refused{refused->allowed + ", or no"};
          return Less(std::get<base::Money>(answer));
        },
        std::optional<Less>(Less()));
    if (less) job_.fallbacks.push_back({works::Fallback::Kind::gravel_for_flags, path->name, less});
  }
}

void JobAsk::price() {
  if (!me_.rates) return;
  const auto currency = me_.rates->currency;
  using Agreed = std::optional<base::Money>;
  const Agreed agreed = talk_.ask<Agreed>(
      {"price", "The price agreed, before tax", "none yet",
       "For the job as it stands. It can be said later."},
      [currency](auto said) -> Answer<Agreed> {
        if (works::says_none(said)) return Agreed();
        auto answer = works::money_answer(said, currency);
        if (auto* refused = std::get_if<Refused>(&answer)) return Refused{refused->allowed + ", or none"};
        const auto& value = std::get<base::Money>(answer);
        return value.minor() == 0 ? Agreed() : Agreed(value);
      },
      std::optional<Agreed>(Agreed()));
  if (!agreed) return;
  job_.price.emplace();
  job_.price->fixed = agreed;
}

}  // namespace weatherstruck::desk
