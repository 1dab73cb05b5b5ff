#include "weatherstruck/desk/export_desk.h"

#include <fmt/format.h>

#include <optional>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/forecast_shelf.h"
#include "weatherstruck/desk/invoice_desk.h"
#include "weatherstruck/files/csv_text.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/invoice_csv.h"
#include "weatherstruck/files/plan_json.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/works/quantities.h"
#include "weatherstruck/works/standing.h"

namespace weatherstruck::desk {
namespace {

using files::csv_row;
using files::Json;

/// As what it is, where it is JSON; comments go. Else as text.
Json as_said(const std::string& text) {
  // Forecasts are long and have no comments; documents are the other way round.
  for (const files::JsonLimits& limits : {files::JsonLimits::forecast(), files::JsonLimits::job_document()}) {
    files::ParsedJson parsed = files::parse_json(text, limits);
    if (parsed.value) return std::move(*parsed.value);
  }
  return text;
}

template <class T, class Turn>
Json if_there(const std::optional<T>& value, const Turn& turn) {
  return value ? Json(turn(*value)) : Json(nullptr);
}

Json book_json(const std::vector<record::Entry>& entries) {
  Json out = Json::array();
  for (const record::Entry& entry : entries) {
    out.push_back({{"id", static_cast<std::int64_t>(entry.id)},
                   {"revision", entry.revision},
                   {"key", entry.key},
                   {"kind", entry.kind},
                   {"at", base::iso_utc(entry.at)},
                   {"zone", entry.zone},
                   {"noted_at", base::iso_utc(entry.noted_at)},
                   {"corrects", if_there(entry.corrects,
                                         [](record::EntryId id) { return static_cast<std::int64_t>(id); })},
                   {"says", as_said(entry.body)}});
  }
  return out;
}

Json forecasts_json(const std::vector<record::Forecast>& forecasts) {
  Json out = Json::array();
  for (const record::Forecast& forecast : forecasts) {
    out.push_back({{"source", forecast.source},
                   {"url", forecast.url},
                   {"place", forecast.place},
                   {"fetched_at", base::iso_utc(forecast.fetched_at)},
                   {"confirmed_at", base::iso_utc(forecast.confirmed_at)},
                   {"expires", if_there(forecast.expires, base::iso_utc)},
                   {"body", as_said(forecast.body)}});
  }
  return out;
}

Json invoices_json(record::Store& store, record::JobId job) {
  Json out = Json::array();
  for (const record::Invoice& invoice : store.invoices(job)) {
    out.push_back({{"series", invoice.series},
                   {"number", invoice.number},
                   {"issued_at", base::iso_utc(invoice.issued_at)},
                   {"book_revision", invoice.book_revision},
                   {"paper", as_said(invoice.bytes)}});
  }
  return out;
}

// Where its file lies, beside the record, and whether it is what was kept.
Json photographs_json(record::Store& store, record::JobId job) {
  Json out = Json::array();
  for (const record::Photograph& photograph : store.photographs(job)) {
    out.push_back({{"entry", static_cast<std::int64_t>(photograph.entry)},
                   {"line", photograph.line},
                   {"kind", record::word_of(photograph.kind)},
                   {"bytes", photograph.size},
                   {"sha256", photograph.content},
                   {"kept_at", base::iso_utc(photograph.kept_at)},
                   {"file", record::photograph_file(store.path(), photograph).string()},
                   {"state", record::words_of(record::state_of(store.path(), photograph))}});
  }
  return out;
}

std::string number(double value) {
  return fmt::format("{}", value);
}
std::string moment(const std::optional<base::Instant>& at) {
  return at ? base::iso_utc(*at) : std::string();
}

std::string book_table(const std::vector<record::Entry>& entries) {
  std::string out = csv_row({"revision", "id", "kind", "at", "zone", "noted_at", "corrects", "says"});
  for (const record::Entry& entry : entries) {
    out += csv_row({std::to_string(entry.revision), std::to_string(static_cast<std::int64_t>(entry.id)),
                    entry.kind, base::iso_utc(entry.at), entry.zone, base::iso_utc(entry.noted_at),
                    entry.corrects ? std::to_string(static_cast<std::int64_t>(*entry.corrects)) : "",
                    entry.body});
  }
  return out;
}

std::string photograph_table(record::Store& store, record::JobId job) {
  std::string out = csv_row({"line", "entry", "kind", "bytes", "sha256", "kept_at", "file", "state"});
  for (const record::Photograph& photograph : store.photographs(job)) {
    out += csv_row(
        {std::to_string(photograph.line), std::to_string(static_cast<std::int64_t>(photograph.entry)),
         std::string(record::word_of(photograph.kind)), std::to_string(photograph.size), photograph.content,
         base::iso_utc(photograph.kept_at), record::photograph_file(store.path(), photograph).string(),
         std::string(record::words_of(record::state_of(store.path(), photograph)))});
  }
  return out;
}

std::string work_table(const works::Standing& standing) {
  std::string out = csv_row({"task", "part", "title", "amount", "unit", "person_hours", "done", "begun",
                             "finished", "hours_worked"});
  for (const works::Task& task : standing.list.tasks) {
    const works::TaskProgress* state = standing.progress.find(task.name);
    out +=
        csv_row({task.name, task.part, task.title, number(task.amount), task.unit, number(task.hours.value()),
                 state != nullptr ? number(state->done) : "", state != nullptr ? moment(state->begun) : "",
                 state != nullptr ? moment(state->finished) : "",
                 state != nullptr ? number(state->worked.value()) : ""});
  }
  return out;
}

std::string plan_table(const std::optional<files::KeptPlan>& kept, const works::TaskList& list) {
  std::string out =
      csv_row({"task", "title", "from", "to", "people", "share", "courses_after", "under_canopy"});
  if (!kept) return out;
  for (const programme::PlannedTask& planned : kept->plan.tasks) {
    const works::Task* task = list.find(planned.task);
    for (const programme::PlannedRun& run : planned.runs) {
      out += csv_row({planned.task, task != nullptr ? task->title : "", base::iso_utc(run.span.from),
                      base::iso_utc(run.span.to), std::to_string(planned.people), number(run.share),
                      std::to_string(run.courses_after), run.under_canopy ? "yes" : "no"});
    }
  }
  return out;
}

std::string cover_table(const std::optional<files::KeptPlan>& kept) {
  std::string out = csv_row({"part", "title", "cover", "square_metres", "from", "to", "stays_on"});
  if (!kept) return out;
  for (const programme::PlannedCover& cover : kept->plan.covers) {
    out += csv_row({cover.part, cover.title, std::string(trade::row_for(cover.kind).key),
                    number(cover.area.value()), base::iso_utc(cover.span.from), base::iso_utc(cover.span.to),
                    cover.stays_on ? "yes" : "no"});
  }
  return out;
}

std::string invoice_table(record::Store& store, record::JobId job) {
  std::string out = files::invoice_csv_head();
  for (const account::Invoice& invoice : invoices_of(store, job))
    out += files::invoice_csv(invoice).substr(files::invoice_csv_head().size());
  return out;
}

std::optional<files::KeptPlan> plan_of(record::Store& store, record::JobId job) {
  const std::optional<record::Plan> kept = store.latest_plan(job);
  return kept ? files::read_plan(kept->bytes) : std::nullopt;
}

}  // namespace

Json export_job(Shelf& shelf, const OpenJob& open, base::Instant now) {
  record::Store& store = shelf.store();
  const KeptAs& kept = open.kept.value();
  Json out = files::export_document("job-export");
  // One moment of the record, whoever else writes.
  store.in_one([&] {
    out["job"] = open.job.name;
    out["exported_at"] = base::iso_utc(now);
    out["documents"] = Json::array();
    for (std::int64_t version = 1; version <= kept.version; ++version) {
      const auto document = store.job_version(kept.id, version);
      if (!document) continue;
      out["documents"].push_back({{"version", document->version},
                                  {"made_at", base::iso_utc(document->made_at)},
                                  {"document", as_said(document->text)}});
    }
    out["me"] = if_there(store.person(), [](const record::Document& person) { return as_said(person.text); });
    out["book"] = book_json(store.entries(kept.id));
    out["forecasts"] = forecasts_json(store.forecasts_since(place_key(open.job.site), base::Instant::min()));
    out["plan"] = if_there(store.latest_plan(kept.id), [](const record::Plan& plan) {
      return Json{{"made_at", base::iso_utc(plan.made_at)},
                  {"job_version", plan.job_version},
                  {"book_revision", plan.book_revision},
                  {"program", plan.program},
                  {"zones", plan.zones},
                  {"plan", as_said(plan.bytes)}};
    });
    out["calendar"] = if_there(store.latest_sheet(kept.id, "calendar"),
                               [](const record::Sheet& sheet) { return as_said(sheet.bytes); });
    out["invoices"] = invoices_json(store, kept.id);
  });
  // They are read through, which takes a while: nobody is to wait for that.
  out["photographs"] = photographs_json(store, kept.id);
  return out;
}

std::vector<NamedTable> export_tables(Shelf& shelf, const OpenJob& open, base::Instant now) {
  record::Store& store = shelf.store();
  const KeptAs& kept = open.kept.value();
  const works::Standing standing = works::standing_of(open.job, open.book, now);
  std::string materials =
      csv_row({"material", "name", "unit", "net", "waste", "total", "to_buy", "purchase"});
  for (const works::TotalLine& total : works::bill_of(standing.job).totals) {
    materials += csv_row({total.material, total.name, total.unit, number(total.net), number(total.waste),
                          number(total.total), number(total.to_buy), total.purchase});
  }
  const std::optional<files::KeptPlan> plan = plan_of(store, kept.id);
  return {{"book.csv", book_table(store.entries(kept.id))},
          {"work.csv", work_table(standing)},
          {"materials.csv", std::move(materials)},
          {"plan.csv", plan_table(plan, standing.list)},
          {"covers.csv", cover_table(plan)},
          {"invoices.csv", invoice_table(store, kept.id)},
          {"photographs.csv", photograph_table(store, kept.id)}};
}

}  // namespace weatherstruck::desk
