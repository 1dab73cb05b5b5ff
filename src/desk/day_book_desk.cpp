#include "weatherstruck/desk/day_book_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

#include "book_hear.h"
#include "weatherstruck/desk/forecast_shelf.h"
#include "weatherstruck/desk/photograph_desk.h"
#include "weatherstruck/desk/trip_desk.h"
#include "weatherstruck/files/plan_json.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::desk {
namespace {

sky::Series kept_weather(Shelf& shelf, const OpenJob& open, const works::Progress& progress,
                         base::Instant now) {
  const auto nobody = []() -> ServicePorts { throw std::logic_error("no service is asked for past days"); };
  try {
    return as_it_was(forecasts_for(shelf, open, {{}, true, true, 0}, nobody, now).issues, progress);
  } catch (const base::InputError&) {
    return {};  // none is kept
  }
}

// What a photograph is of: an expense without its receipt, which is the photograph.
std::string words_of(const works::Entry& entry, const KeptDays& days, const base::Zone& zone) {
  if (const auto* expense = std::get_if<works::Expense>(&entry.what))
    return fmt::format("{}, {}", expense->what, expense->money.text());
  if (const auto* note = std::get_if<works::Note>(&entry.what)) return note->text;
  std::string words =
      without_asking(works::shown_back(entry.what, entry.at, days.standing.list, zone, days.now));
  if (!words.empty() && words.back() == '.') words.pop_back();
  return words;
}

std::vector<render::DayPhotograph> kept_photographs(Shelf& shelf, const OpenJob& open, const KeptDays& days,
                                                    const PhotographsOf& photographs) {
  std::vector<render::DayPhotograph> out;
  std::map<std::string, record::PhotographState> states;
  for (const works::Entry& entry : days.entries) {
    const auto its = photographs.find(entry.key);
    if (its == photographs.end()) continue;
    for (const record::Photograph& photograph : its->second) {
      auto state = states.find(photograph.content);
      if (state == states.end())
        state = states.emplace(photograph.content, record::state_of(shelf.store().path(), photograph)).first;
      std::string trouble;
      if (state->second != record::PhotographState::whole)
        trouble = fmt::format(
            "its file is {}: give the same picture again with \"weatherstruck log {} --photo FILE --line "
            "{}\"",
            record::words_of(state->second), open.job.name, photograph.line);
      out.push_back({entry.at, words_of(entry, days, open.job.site.zone), record::mark_of(photograph),
                     photograph_words(photograph), std::move(trouble),
                     std::holds_alternative<works::Expense>(entry.what)});
    }
  }
  return out;
}

}  // namespace

KeptDays kept_days(Shelf& shelf, const OpenJob& open, base::Instant now) {
  KeptDays out{works::standing_of(open.job, open.book, now), {}, {}, {}, now, {}};
  const PhotographsOf photographs = photographs_of(shelf, open);
  for (works::Entry& entry : works::effective(with_receipts(open.book, photographs)).entries) {
    if (entry.at <= now) out.entries.push_back(std::move(entry));
  }
  out.photographs = kept_photographs(shelf, open, out, photographs);
  out.weather = kept_weather(shelf, open, out.standing.progress, now);
  std::map<base::LocalDay, base::Instant> begun;
  for (const works::TaskProgress& state : out.standing.progress.tasks) {
    for (const works::Run& run : state.runs) {
      const auto day = begun.try_emplace(open.job.site.zone.day_of(run.from), run.from).first;
      day->second = std::min(day->second, run.from);
    }
  }
  for (const auto& [day, first] : begun) {
    const std::optional<record::Plan> row =
        shelf.store().plan_before(open.kept.value().id, first + std::chrono::seconds(1));
    if (!row) continue;
    if (auto plan = files::read_plan(row->bytes)) out.plans.push_back({day, std::move(plan->plan)});
  }
  return out;
}

}  // namespace weatherstruck::desk
