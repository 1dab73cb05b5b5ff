#include <fmt/format.h>

#include <ostream>

#include "answer_try.h"
#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/trial_desk.h"
#include "weatherstruck/files/me_json.h"

namespace weatherstruck::app {
namespace {

// What he charges; only a kept job looks into the record.
std::optional<account::Rates> rates_of(const Setting& setting, const desk::OpenJob& open) {
  if (!open.kept) return std::nullopt;
  const auto person = setting.shelf.store().person();
  if (!person) return std::nullopt;
  files::MeRead read = files::read_me(person->text, setting.zones);
  return read.document ? read.document->rates : std::nullopt;
}

ExitCode told(const Arguments& arguments, const Setting& setting, const desk::OpenJob& open,
              const std::string& state, const std::vector<std::string>& changes, const std::string& text) {
  return answer(
      arguments, setting, [&] { return trial_answer(open.job.name, state, changes); },
      [&] {
        render::Page page;
        page.text(text);
        return page.str();
      });
}

const std::string& kept_name(const desk::OpenJob& open, const std::string& word) {
  if (open.kept) return open.job.name;
  throw UsageError(
      fmt::format("Beside a file nothing stands that could be kept or dropped. \"weatherstruck job add {}\" "
                  "keeps the job.",
                  word));
}

ExitCode settle(const Arguments& arguments, const Setting& setting, bool keep) {
  const std::string& word = arguments.positionals.front();
  const desk::OpenJob open = setting.shelf.open(word, setting.zones);
  const std::string& name = kept_name(open, word);
  const base::Instant now = moment_of(arguments, setting, open.job);
  if (!keep) {
    const auto dropped = desk::drop_trial(setting.shelf, open, now);
    if (!dropped)
      return told(arguments, setting, open, "nothing", {},
                  "Nothing was tried that stands; the job is as it was.");
    return told(arguments, setting, open, "dropped", dropped->changes,
                fmt::format("Dropped: {}. The job is as it was.", base::join_and(dropped->changes)));
  }
  const files::Altered altered = desk::keep_trial(setting.shelf, open, setting.zones, now);
  std::vector<std::string> said;
  for (const files::Alteration& change : altered.changes)
    said.push_back(change.said);
  return told(arguments, setting, open, "kept", said,
              fmt::format("Kept: {}. The next plan of {} goes by it.", base::join_and(said), name));
}

ExitCode show_standing(const Arguments& arguments, const Setting& setting) {
  const std::string& word = arguments.positionals.front();
  const desk::OpenJob open = setting.shelf.open(word, setting.zones);
  const auto standing = desk::standing_trial(setting.shelf, open);
  if (!standing)
    return told(
        arguments, setting, open, "nothing", {},
        fmt::format("Nothing that was tried stands beside it. Say what to change: weatherstruck try {} "
                    "\"PART +1 course\".",
                    word));
  const bool moved = standing->version != open.kept->version;
  return told(arguments, setting, open, "tried", standing->changes,
              fmt::format("Tried {} and not kept: {}.{}",
                          base::day_and_time(open.job.site.zone.to_local(standing->at)),
                          base::join_and(standing->changes),
                          moved ? " The job was changed since, so it has to be tried again." : ""));
}

ExitCode try_it(const Arguments& arguments, const Setting& setting, const std::vector<std::string>& changes) {
  const std::string& word = arguments.positionals.front();
  const desk::OpenJob open = setting.shelf.open(word, setting.zones);
  const files::Altered altered =
      desk::try_on(open, changes, setting.zones, moment_of(arguments, setting, open.job));
  return on_trip(arguments, setting, [&](desk::PlannedTrip& trip) {
    const std::optional<account::Rates> rates = rates_of(setting, trip.open);
    auto facts = desk::tried(trip, altered, rates ? &*rates : nullptr, arguments.seed);
    if (!facts)
      throw UsageError(
          fmt::format("The trip has begun, and of a file nobody knows what is done. Keep the job, "
                      "\"weatherstruck job add {}\", and log what is done; --now asks for an "
                      "earlier moment.",
                      word));
    if (trip.open.kept) {
      desk::stand(setting.shelf, trip.open, changes, trip.now);
      facts->stands = true;
    }
    (void)answer(
        arguments, setting, [&] { return try_answer(*facts); },
        [&] { return render::try_sheet(*facts, setting.ink); });
    if (!facts->after.result.objections.empty()) {
      setting.err << "The plan as tried fails its own check.\n";
      return ExitCode::failed;
    }
    if (facts->after.keeps_promise()) return ExitCode::ok;
    setting.err << (facts->after.result.plan.all_musts_placed(facts->after.list)
                        ? "As tried: not home by the promise.\n"
                        : "As tried: work that must be done is left out.\n");
    return ExitCode::no_plan;
  });
}

}  // namespace

Command try_command() {
  return {
      {"try",
       "a change of the job before it is made: what it takes, costs, and is he home",
       "Puts the job as it is and as it would be beside each other: bricks, mixes, hours, money, what to buy "
       "or "
       "left over, and whether the promise is still kept, both planned from what is done and followed "
       "through the "
       "same weathers. A change names a part and what becomes of it, in the words of the job's document: "
       "\"bed +3 "
       "courses\", \"bed one course lower\", \"bed length 3.5 m\", \"path gravel\", \"turn shelter left\", "
       "\"without path\", \"path must\". Several are parted by commas, or each in quotes. The job stays as "
       "it is: "
       "the change last tried stands beside it until \"keep\" makes it or \"drop\" forgets it; once the job "
       "was "
       "changed otherwise it has to be tried again. What the site book says is begun can be changed no more.",
       {{"JOB", "its name, or a file"},
        {"CHANGE", "what to change; keep, drop, or nothing to see what stands", Positional::Kind::many}},
       true,
       {{"try valley-shelter \"bed +2 courses\" \"path gravel\"", "the customer asks"},
        {"try valley-shelter keep", "and agrees"}}},
      [](const Arguments& arguments) -> Run {
        const std::vector<std::string> words(arguments.positionals.begin() + 1, arguments.positionals.end());
        std::vector<std::string> changes = files::changes_said(words);
        return [arguments, changes = std::move(changes)](const Setting& setting) {
          if (changes.empty()) return show_standing(arguments, setting);
          if (changes.size() == 1 && (changes[0] == "keep" || changes[0] == "drop"))
            return settle(arguments, setting, changes[0] == "keep");
          return try_it(arguments, setting, changes);
        };
      }};
}

}  // namespace weatherstruck::app
