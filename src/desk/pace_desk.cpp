#include "weatherstruck/desk/pace_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "weatherstruck/base/digest.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/files/me_json.h"
#include "weatherstruck/files/pace_json.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::desk {
namespace {

/// Rises when what counts as timed changes.
constexpr int timed_version = 1;

/// The figures of the tables that it hangs on, so that what was reckoned by others is not taken up.
std::string norms_mark() {
  std::string all;
  for (const trade::OperationRow& row : trade::operations())
    all += fmt::format("{} {} {}\n", row.key, row.hours_per_unit, row.set_up.count());
  for (const trade::Norm& norm : trade::norms())
    all += fmt::format("{} {}\n", norm.key, norm.value);
  const base::Sha256 hash = base::sha256(all);
  constexpr std::size_t enough = 9;
  return base::base64(std::string(hash.begin(), hash.begin() + enough));
}

/// What was reckoned anew and is still to be kept.
struct Fresh {
  std::string key;
  std::string bytes;
  base::Instant at;
};

std::vector<works::TimedWork> timed_on(record::Store& store, const files::ZoneSource& zones,
                                       const record::JobMark& mark, const std::string& norms,
                                       std::vector<Fresh>& fresh) {
  const std::string key = fmt::format("timed {} {} {} {} {} {}", timed_version, norms, zones.version(),
                                      static_cast<std::int64_t>(mark.id), mark.version, mark.book_revision);
  if (const auto kept = store.reckoned(key)) {
    if (auto read = files::read_timed(*kept)) return std::move(*read);
  }
  std::vector<works::TimedWork> timed;
  base::Instant last{};
  try {
    const OpenJob open = open_kept(store, mark.name, zones);
    for (const works::Entry& entry : open.book.entries())
      last = std::max({last, entry.at, entry.noted_at});
    timed = works::timed_work(open.job, open.book, last);
  } catch (const base::InputError&) {
    return {};
  }
  fresh.push_back({key, files::timed_json(timed).dump(), last});
  return timed;
}

void keep(record::Store& store, const std::vector<Fresh>& fresh) {
  if (fresh.empty()) return;
  try {
    store.in_one([&] {
      for (const Fresh& one : fresh)
        store.keep_reckoned(one.key, one.bytes, one.at);
    });
  } catch (const record::RecordError&) {
    return;  // it is reckoned again the next time
  }
}

struct Him {
  std::optional<files::MeDocument> document;
  std::vector<works::PaceStart> starts;
};
Him him(record::Store& store, const files::ZoneSource& zones) {
  Him out;
  if (const auto person = store.person()) out.document = files::read_me(person->text, zones).document;
  if (out.document) out.starts = out.document->me.pace_from;
  return out;
}

}  // namespace

std::vector<works::TimedWork> timed_on_jobs(record::Store& store, const files::ZoneSource& zones,
                                            std::optional<record::JobId> but_not) {
  std::vector<works::TimedWork> all;
  const std::string norms = norms_mark();
  std::vector<Fresh> fresh;
  for (const record::JobMark& mark : store.job_marks()) {
    if (mark.id == but_not || mark.book_revision == 0) continue;
    std::vector<works::TimedWork> timed = timed_on(store, zones, mark, norms, fresh);
    all.insert(all.end(), std::make_move_iterator(timed.begin()), std::make_move_iterator(timed.end()));
  }
  keep(store, fresh);
  return all;
}

void put_own_pace(record::Store& store, const files::ZoneSource& zones, OpenJob& open) {
  if (open.job.crew.size() != 1 || !open.kept) return;
  const base::Instant leave = open.job.trip.leave_home;
  std::vector<works::TimedWork> timed = timed_on_jobs(store, zones, open.kept->id);
  const std::vector<works::Entry>& book = open.book.entries();
  const bool second_trip =
      std::any_of(book.begin(), book.end(), [&](const works::Entry& entry) { return entry.at < leave; });
  if (second_trip) {
    for (works::TimedWork& one : works::timed_work(open.job, open.book, leave))
      timed.push_back(std::move(one));
  }
  const works::Person& person = open.job.crew.front();
  const Him known = him(store, zones);
  works::put_own_pace(open.job,
                      works::learn_paces(std::move(timed), known.starts, person.name, person.pace, leave));
}

std::vector<works::LearntPace> own_paces(record::Store& store, const files::ZoneSource& zones,
                                         base::Instant now) {
  const Him known = him(store, zones);
  const works::Person person =
      known.document ? known.document->me.crew.front() : works::Person{"mason", true, 1.0};
  return works::learn_paces(timed_on_jobs(store, zones), known.starts, person.name, person.pace, now);
}

trade::Operation work_of(std::string_view key) {
  if (const auto operation = trade::operation_from_key(key)) return *operation;
  std::vector<std::string> keys;
  for (const trade::OperationRow& row : trade::operations())
    keys.emplace_back(row.key);
  const auto near = base::nearest_name(std::string(key), keys);
  throw base::InputError("his own pace",
                         {{"unknown-work", "", fmt::format("\"{}\"", key),
                           near ? fmt::format("a kind of work, perhaps \"{}\"", *near) : "a kind of work",
                           "\"weatherstruck limits hours\" names them."}});
}

void forget_pace(record::Store& store, const files::ZoneSource& zones, std::string_view work,
                 base::Instant from) {
  if (!work.empty()) (void)work_of(work);
  store.in_one([&] {
    Him known = him(store, zones);
    if (!known.document) {
      throw base::InputError("his own pace", {{"nobody", "", "nothing kept of who you are", "",
                                               "Say it once with \"weatherstruck me\"."}});
    }
    std::vector<works::PaceStart>& starts = known.document->me.pace_from;
    starts.erase(std::remove_if(starts.begin(), starts.end(),
                                [&](const works::PaceStart& one) { return one.work == work; }),
                 starts.end());
    starts.push_back({std::string(work), from});
    (void)store.put_person(files::write_me(*known.document), files::me_schema_version, from);
  });
}

}  // namespace weatherstruck::desk
