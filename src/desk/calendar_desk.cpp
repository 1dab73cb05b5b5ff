#include "weatherstruck/desk/calendar_desk.h"

#include <fmt/format.h>

#include "weatherstruck/base/digest.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/calendar_json.h"
#include "weatherstruck/files/export.h"

namespace weatherstruck::desk {
namespace {

constexpr std::string_view sheet_kind = "calendar";

}  // namespace

std::string calendar_mark(record::Store& store, const record::Job& job) {
  const auto first = store.job_version(job.id, 1);
  const std::string when = first ? base::iso_utc(first->made_at) : std::string();
  const base::Sha256 digest = base::sha256(job.name + "\n" + when);
  std::string out;
  constexpr std::size_t bytes = 8;
  for (std::size_t i = 0; i < bytes; ++i)
    out += fmt::format("{:02x}", digest.at(i));
  return out;
}

render::Calendar renew_calendar(record::Store& store, const record::Job& job,
                                const std::optional<record::PlanId>& plan,
                                const std::vector<render::CalendarEvent>& events, base::Instant now,
                                const base::Zone& zone) {
  render::Calendar made;
  store.in_one([&] {
    const std::optional<record::Sheet> last = store.latest_sheet(job.id, sheet_kind);
    const render::Calendar before =
        last ? files::read_calendar(last->bytes, "the calendar kept last") : render::Calendar{};
    made = render::renewed(before, events, now, calendar_mark(store, job), zone);
    if (last && made == before) return;
    store.put_sheet(
        {job.id, plan, std::string(sheet_kind), now, files::export_text(files::calendar_to_json(made))});
  });
  return made;
}

}  // namespace weatherstruck::desk
