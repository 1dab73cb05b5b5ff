#include "weatherstruck/desk/trial_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "budget.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/workers.h"
#include "weatherstruck/files/job_writer.h"
#include "weatherstruck/programme/done.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/standing.h"
#include "weatherstruck/works/work_hours.h"

namespace weatherstruck::desk {
namespace {

using files::Alteration;

constexpr std::string_view sheet_kind = "try";

// What may still become of a part that is dug or poured, and of one whose bricks are begun.
constexpr std::array<std::string_view, 16> above_ground{
    "courses", "brick", "brick_below",  "joints",  "bond",    "plates",      "plate",      "coping",
    "filled",  "dpc",   "weep_spacing", "surface", "subbase", "flag_length", "flag_width", "importance"};
constexpr std::array<std::string_view, 5> once_laying{"courses", "importance", "filled", "plates", "coping"};

template <std::size_t N>
bool among(const std::array<std::string_view, N>& keys, std::string_view key) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

bool is_in_the_ground(trade::Operation operation) {
  using trade::Operation;
  switch (operation) {
    case Operation::set_out:
    case Operation::strip_turf:
    case Operation::dig:
    case Operation::bail:
    case Operation::wheel_in:
    case Operation::pour:
    case Operation::true_lines:
    case Operation::lay_subbase:
      return true;
    default:
      return false;
  }
}

void begun_already(const Alteration& change, const std::string& place, const works::TaskList& list,
                   const works::Progress& progress, base::Faults& faults) {
  const works::Task* laying = nullptr;
  const works::Task* any = nullptr;
  for (const works::Task& task : list.tasks) {
    const works::TaskProgress* state = progress.find(task.name);
    if (task.of != change.part || state == nullptr || (!state->begun && state->done <= 0)) continue;
    any = any == nullptr ? &task : any;
    if (!is_in_the_ground(task.operation) && laying == nullptr) laying = &task;
  }
  const bool free = any == nullptr ||
                    (laying == nullptr ? among(above_ground, change.key) : among(once_laying, change.key));
  if (free) return;
  const works::Task& task = laying == nullptr ? *any : *laying;
  faults.push_back({"begun-already", "\"" + place + "\"",
                    fmt::format("\"{}\" is begun, by the site book", works::short_title(task)),
                    laying == nullptr
                        ? "of a part in the ground what stands above it: courses, bricks, surface"
                        : "of a part that is being built its courses and what comes after",
                    "Change what is still open, or put the entry right with \"weatherstruck log\"."});
}

bool same(const works::Remark& a, const works::Remark& b) {
  return a.kind == b.kind && a.code == b.code && a.entry == b.entry;
}

works::Job document_of(const OpenJob& open, const files::ZoneSource& zones) {
  return read_open_job(open.document, open.source, zones).job;
}

// One side of the sheet: planned from what is done, as far as the book or the plan of before says.
render::TrySide side_of(const PlannedTrip& trip, const works::Job& document, std::uint64_t seed) {
  const base::Instant leave = document.trip.leave_home;
  std::optional<programme::Plan> followed;
  // A file has no book, so that its standing is the job itself.
  works::Standing standing = works::standing_of(document, trip.open.book, trip.now);
  render::TrySide side{std::move(standing.job), std::move(standing.list), {}, {}, {}, {}};
  if (standing.book) {
    followed =
        programme::done_so_far(side.job, side.list, standing.progress, &trip.result.plan, trip.now).plan;
  }
  if (!followed && trip.now > leave) followed = trip.result.plan;
  side.bill = works::bill_of(side.job);
  side.work = works::crew_hours(side.job, side.list);
  side.left = works::crew_hours(side.job, side.list, standing.book ? &standing.progress : nullptr);
  const trade::LimitValues& limits = trip.open.limits;
  side.result =
      programme::make_plan({side.job, side.list, trip.series, limits, followed ? trip.now : leave,
                            followed ? &*followed : nullptr, schedules, seed, weathers, all_workers()});
  return side;
}

std::vector<works::Fallback> fallbacks_used(const works::Job& before, const works::Job& after,
                                            const std::vector<Alteration>& changes) {
  std::vector<works::Fallback> used;
  const auto part = [](const works::Job& job, const works::Name& name) -> const works::Part* {
    for (const works::Part& one : job.parts) {
      if (works::name_of(one) == name) return &one;
    }
    return nullptr;
  };
  for (const works::Fallback& fallback : before.fallbacks) {
    const works::Part* is = part(after, fallback.part);
    bool made = false;
    switch (fallback.kind) {
      case works::Fallback::Kind::drop:
        made = is == nullptr;
        break;
      case works::Fallback::Kind::gravel_for_flags: {
        const auto* path = is == nullptr ? nullptr : std::get_if<works::Path>(is);
        made = path != nullptr && path->surface == trade::Surface::gravel;
        break;
      }
      case works::Fallback::Kind::one_course_lower: {
        const auto courses = [](const works::Part* one) {
          return one == nullptr ? 0
                                : std::visit(
                                      [](const auto& any) {
                                        if constexpr (requires { any.courses; }) return any.courses;
                                        return 0;
                                      },
                                      *one);
        };
        made = is != nullptr && courses(is) == courses(part(before, fallback.part)) - 1;
        break;
      }
    }
    const bool changed = std::any_of(changes.begin(), changes.end(),
                                     [&](const Alteration& one) { return one.part == fallback.part; });
    if (made && changed) used.push_back(fallback);
  }
  return used;
}

void put_state(Shelf& shelf, const OpenJob& open, std::string_view state,
               const std::vector<std::string>& changes, base::Instant now) {
  files::Json row = {{"state", state}, {"version", open.kept->version}, {"changes", changes}};
  shelf.store().put_sheet({open.kept->id, {}, std::string(sheet_kind), now, row.dump()});
}

}  // namespace

files::Altered try_on(const OpenJob& open, const std::vector<std::string>& changes,
                      const files::ZoneSource& zones, base::Instant now) {
  const works::Job job = document_of(open, zones);
  auto outcome = files::alter_job(job, changes, zones);
  if (auto* faults = std::get_if<base::Faults>(&outcome))
    throw base::InputError(open.source, std::move(*faults));
  files::Altered altered = std::get<files::Altered>(std::move(outcome));
  if (!open.kept) return altered;
  base::Faults faults;
  const works::Standing before = works::standing_of(job, open.book, now);
  for (std::size_t i = 0; i < altered.changes.size(); ++i)
    begun_already(altered.changes[i], changes[i], before.list, before.progress, faults);
  if (faults.empty()) {
    for (const works::Remark& remark : works::standing_of(altered.job, open.book, now).progress.remarks) {
      const auto& known = before.progress.remarks;
      const bool old =
          std::any_of(known.begin(), known.end(), [&](const auto& one) { return same(one, remark); });
      if (old || remark.kind != works::Remark::Kind::fault) continue;
      faults.push_back({"more-is-done", "the site book", remark.text, "no less than is built",
                        "Change less, or put the entry right with \"weatherstruck log\"."});
    }
  }
  if (!faults.empty()) throw base::InputError(open.source, std::move(faults));
  return altered;
}

std::optional<render::TryFacts> tried(const PlannedTrip& trip, const files::Altered& altered,
                                      const account::Rates* rates, std::uint64_t seed) {
  works::Job document = trip.open.job;
  document.ground.clear();
  const bool begun = trip.now > document.trip.leave_home;
  if (begun && !trip.open.kept) return std::nullopt;
  render::TryFacts facts{
      {}, {}, side_of(trip, document, seed), side_of(trip, altered.job, seed), {}, {}, {}, {}, {}, {}, {}};
  for (const Alteration& change : altered.changes) {
    facts.said.push_back(change.said);
    facts.changed.push_back(change.part);
  }
  facts.beside = programme::paired(facts.after.result.outlook.value(), facts.before.result.outlook.value());
  std::optional<works::Progress> was;
  std::optional<works::Progress> is;
  if (trip.open.kept && trip.progress) {
    was = works::standing_of(document, trip.open.book, trip.now).progress;
    is = works::standing_of(altered.job, trip.open.book, trip.now).progress;
  }
  facts.materials = works::material_changes({facts.before.job, facts.before.bill, was ? &*was : nullptr},
                                            {facts.after.job, facts.after.bill, is ? &*is : nullptr});
  facts.price = account::change_price(document, rates, facts.before.work, facts.after.work,
                                      fallbacks_used(document, altered.job, altered.changes));
  for (const base::Fault& advice : altered.advice) {
    const auto known = [&](const base::Fault& one) {
      return one.code == advice.code && one.found == advice.found;
    };
    if (std::none_of(trip.open.advice.begin(), trip.open.advice.end(), known)) facts.advice.push_back(advice);
  }
  facts.begun = begun;
  if (trip.open.kept) facts.name = document.name;
  return facts;
}

std::optional<StandingTrial> standing_trial(Shelf& shelf, const OpenJob& open) {
  if (!open.kept) return std::nullopt;
  const std::optional<record::Sheet> sheet = shelf.store().latest_sheet(open.kept->id, sheet_kind);
  if (!sheet) return std::nullopt;
  const files::Json row = files::Json::parse(sheet->bytes, nullptr, false);
  if (!row.is_object() || row.value("state", "") != "tried") return std::nullopt;
  return StandingTrial{row.value("changes", std::vector<std::string>()),
                       row.value("version", std::int64_t{0}), sheet->made_at};
}

void stand(Shelf& shelf, const OpenJob& open, const std::vector<std::string>& changes, base::Instant now) {
  put_state(shelf, open, "tried", changes, now);
}

files::Altered keep_trial(Shelf& shelf, const OpenJob& open, const files::ZoneSource& zones,
                          base::Instant now) {
  std::optional<files::Altered> kept;
  // One transaction from the look at the version to the new one: what was tried is what is kept.
  shelf.store().in_one([&] {
    const OpenJob fresh = shelf.open(open.source, zones);
    const std::optional<StandingTrial> standing = standing_trial(shelf, fresh);
    if (!standing) {
      throw base::InputError(
          open.source,
          {{"nothing-tried", "", "no change that was tried stands beside this job", "one that does",
            fmt::format("Try one first: \"weatherstruck try {} CHANGE\".", open.source)}});
    }
    if (standing->version != fresh.kept->version) {
      throw base::InputError(
          open.source,
          {{"job-changed", "",
            fmt::format("the job was changed since \"{}\" was tried", base::join_and(standing->changes)),
            "the job as it was tried on",
            fmt::format("Try it again, then keep it, or \"weatherstruck try {} drop\".", open.source)}});
    }
    const files::Altered altered = try_on(fresh, standing->changes, zones, now);
    (void)shelf.replace(open.source, files::write_job(altered.job), zones, now);
    put_state(shelf, fresh, "kept", standing->changes, now);
    kept = altered;
  });
  return std::move(kept).value();
}

std::optional<StandingTrial> drop_trial(Shelf& shelf, const OpenJob& open, base::Instant now) {
  std::optional<StandingTrial> standing = standing_trial(shelf, open);
  if (standing) put_state(shelf, open, "dropped", standing->changes, now);
  return standing;
}

}  // namespace weatherstruck::desk
