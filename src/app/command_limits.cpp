#include <fmt/format.h>

#include <algorithm>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/app/answers.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/limits_sheet.h"

namespace weatherstruck::app {
namespace {

std::optional<trade::LimitSet> set_of(const Arguments& arguments) {
  const auto said = arguments.value("--set");
  if (!said) return std::nullopt;
  if (*said == "uk") return trade::LimitSet::uk;
  if (*said == "us") return trade::LimitSet::us;
  throw UsageError(fmt::format("--set: found \"{}\"; allowed: uk or us.", *said));
}

// The first word may be a job: a path, or the name of one that is kept.
bool is_job(const std::string& word, const Setting& setting) {
  if (desk::is_path(word)) return true;
  const std::vector<std::string> names = setting.shelf.names();
  return std::find(names.begin(), names.end(), word) != names.end();
}

[[noreturn]] void nothing_found(const Arguments& arguments, const render::LimitsFacts& facts) {
  std::vector<std::string> keys;
  for (const trade::ListedRow& row : trade::listed_rows())
    keys.push_back(row.key);
  std::string hint = " \"weatherstruck limits\" lists them all.";
  if (facts.words.size() == 1) {
    if (const auto near = base::nearest_name(facts.words.front(), keys))
      hint = fmt::format(" Did you mean \"{}\"?", *near);
  }
  throw UsageError(fmt::format(
      "No limit, rate or norm{} has \"{}\" in its key, its words or its source{}.{}",
      facts.set ? fmt::format(" under {}", trade::set_words(facts.set, facts.rule)) : std::string(),
      fmt::join(facts.words, "\" and \""),
      facts.job || arguments.positionals.empty() ? "" : ", and no job of that name is kept", hint));
}

ExitCode list(const Arguments& arguments, const Setting& setting, std::optional<trade::LimitSet> set) {
  std::vector<std::string> words = arguments.positionals;
  render::LimitsFacts facts;
  if (!words.empty() && is_job(words.front(), setting)) {
    const desk::OpenJob open = setting.shelf.open(words.front(), setting.zones);
    if (set)
      throw UsageError("--set: found with a job, which says itself which set it goes by; leave one out.");
    words.erase(words.begin());
    facts = render::limits_facts(open.job, std::move(words));
  } else {
    facts = render::limits_facts(set, std::move(words));
  }
  if (facts.rows.empty()) nothing_found(arguments, facts);
  return answer(
      arguments, setting, [&] { return limits_answer(facts); },
      [&] {
        if (arguments.has("--page")) return render::limits_page(facts);
        return facts.words.empty() ? render::limits_list(facts, setting.ink)
                                   : render::limits_details(facts, setting.ink);
      });
}

}  // namespace

Command limits_command() {
  return {
      {"limits",
       "every limit, rate and norm, with its source",
       "What the tables hold, by kind of work: value, unit, what goes wrong when it is passed, set and "
       "source. For a job, what holds for it and what it sets itself. Words narrow the list to what has "
       "all of them in its key, its words or its source, and show the range too. A first word is taken for "
       "a job if it is a path or the name of a job that is kept.",
       {{"JOB", "its name, or a file", Positional::Kind::optional},
        {"WORDS", "such as frost", Positional::Kind::many}},
       false,
       {{"limits shed.json", "what the job goes by, and what it sets itself"},
        {"limits frost", "every number about frost"},
        {"limits brick-cold-stop --set uk", "one of them, under one set"}},
       {{"--set", "SET", "uk or us; else both, or the job's own", false, ""},
        {"--page", "", "as a page in Markdown", false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments, set = set_of(arguments)](const Setting& setting) {
          return list(arguments, setting, set);
        };
      }};
}

}  // namespace weatherstruck::app
