// Forecasts, the plans that stood on them, and the sheets handed out.
#include <fmt/format.h>

#include "store_inside.h"

namespace weatherstruck::record {

ForecastId Store::put_forecast(const NewForecast& forecast) {
  return inside_->write([&] {
    if (forecast.confirms &&
        !inside_
             ->ask("SELECT 1 FROM forecast WHERE id = ? AND body IS NOT NULL", number_of(*forecast.confirms))
             .step()) {
      inside_->refuse("the forecast to be confirmed is not in the record");
    }
    std::optional<Bytes> body;
    if (forecast.body) body = Bytes{*forecast.body};
    inside_
        ->ask(
            "INSERT INTO forecast (job, place, source, url, status, body, confirms, last_modified, etag, "
            "expires, "
            "fetched_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            number_of(forecast.job), std::string_view(forecast.place), std::string_view(forecast.source),
            std::string_view(forecast.url), std::int64_t{forecast.status}, body, number_of(forecast.confirms),
            forecast.last_modified, forecast.etag, forecast.expires, forecast.fetched_at)
        .step();
    return ForecastId{inside_->connection.last_id()};
  });
}

std::optional<Forecast> Store::latest_forecast(std::string_view place, std::string_view source) {
  Statement row = inside_->ask(
      "SELECT id FROM forecast WHERE place = ? AND source = ? AND body IS NOT NULL ORDER BY id DESC LIMIT 1",
      place, source);
  if (!row.step()) return std::nullopt;
  return forecast(ForecastId{row.integer(0)});
}

std::optional<Forecast> Store::forecast(ForecastId id) {
  // What a confirming answer leaves out still stands as it was sent with the issue.
  Statement row = inside_->ask(
      "SELECT i.id, i.place, i.source, i.url, i.body, coalesce(c.last_modified, i.last_modified), "
      "coalesce(c.etag, i.etag), coalesce(c.expires, i.expires), i.fetched_at, coalesce(c.fetched_at, "
      "i.fetched_at) "
      "FROM forecast i LEFT JOIN forecast c ON c.confirms = i.id "
      "WHERE i.id = (SELECT coalesce(confirms, id) FROM forecast WHERE id = ?) AND i.body IS NOT NULL "
      "ORDER BY c.id DESC LIMIT 1",
      number_of(id));
  if (!row.step()) return std::nullopt;
  Forecast found;
  found.id = ForecastId{row.integer(0)};
  found.place = row.text(1);
  found.source = row.text(2);
  found.url = row.text(3);
  found.body = row.bytes(4);
  found.last_modified = row.optional_text(5);
  found.etag = row.optional_text(6);
  found.expires = row.optional_instant(7);
  found.fetched_at = row.instant(8);
  found.confirmed_at = row.instant(9);
  return found;
}

std::vector<Forecast> Store::forecasts_since(std::string_view place, base::Instant since) {
  std::vector<ForecastId> ids;
  {
    Statement rows = inside_->ask(
        "SELECT id FROM forecast WHERE place = ? AND body IS NOT NULL AND fetched_at >= ? ORDER BY id", place,
        since);
    while (rows.step())
      ids.push_back(ForecastId{rows.integer(0)});
  }
  std::vector<Forecast> list;
  for (const ForecastId id : ids)
    list.push_back(forecast(id).value());
  return list;
}

std::optional<ForecastTry> Store::last_try(std::string_view place, std::string_view source) {
  Statement row = inside_->ask(
      "SELECT url, status, expires, fetched_at FROM forecast WHERE place = ? AND source = ? ORDER BY id DESC "
      "LIMIT 1",
      place, source);
  if (!row.step()) return std::nullopt;
  return ForecastTry{row.text(0), static_cast<int>(row.integer(1)), row.optional_instant(2), row.instant(3)};
}

PlanId Store::put_plan(const NewPlan& plan) {
  return inside_->write([&] {
    inside_
        ->ask(
            "INSERT INTO plan (job, job_version, person_version, book_revision, forecast, program, zones, "
            "made_at, "
            "bytes) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            number_of(plan.job), plan.job_version, plan.person_version, plan.book_revision,
            number_of(plan.forecast), std::string_view(plan.program), std::string_view(plan.zones),
            plan.made_at, Bytes{plan.bytes})
        .step();
    return PlanId{inside_->connection.last_id()};
  });
}

namespace {

// One statement, so that plan and staleness are of the same moment.
constexpr std::string_view plan_row =
    "SELECT p.id, p.job, p.job_version, p.person_version, p.book_revision, p.forecast, p.program, p.zones, "
    "p.made_at, p.bytes, "
    "p.book_revision <> (SELECT coalesce(max(revision), 0) FROM entry WHERE job = p.job), "
    "EXISTS (SELECT 1 FROM forecast newer JOIN forecast f ON f.id = p.forecast WHERE newer.place = f.place "
    "AND newer.body IS NOT NULL AND newer.id > coalesce(f.confirms, f.id)), "
    "p.job_version <> (SELECT max(version) FROM job_version WHERE job = p.job), "
    "coalesce(p.person_version, 0) <> (SELECT coalesce(max(version), 0) FROM person) "
    "FROM plan p WHERE p.job = ? AND p.made_at < ? ORDER BY p.id DESC LIMIT 1";

}  // namespace

std::optional<Plan> Store::latest_plan(JobId job) {
  return plan_before(job, base::Instant::max());
}

std::optional<Plan> Store::plan_before(JobId job, base::Instant moment) {
  Statement row = inside_->ask(plan_row, number_of(job), moment);
  if (!row.step()) return std::nullopt;
  Plan plan;
  plan.id = PlanId{row.integer(0)};
  plan.job = JobId{row.integer(1)};
  plan.job_version = row.integer(2);
  plan.person_version = row.optional_integer(3);
  plan.book_revision = row.integer(4);
  plan.forecast = ForecastId{row.integer(5)};
  plan.program = row.text(6);
  plan.zones = row.text(7);
  plan.made_at = row.instant(8);
  plan.bytes = row.bytes(9);
  plan.stale = {row.integer(10) != 0, row.integer(11) != 0, row.integer(12) != 0, row.integer(13) != 0};
  return plan;
}

SheetId Store::put_sheet(const NewSheet& sheet) {
  return inside_->write([&] {
    inside_
        ->ask("INSERT INTO sheet (job, plan, kind, made_at, bytes) VALUES (?, ?, ?, ?, ?)",
              number_of(sheet.job), number_of(sheet.plan), std::string_view(sheet.kind), sheet.made_at,
              Bytes{sheet.bytes})
        .step();
    return SheetId{inside_->connection.last_id()};
  });
}

std::optional<Sheet> Store::latest_sheet(JobId job, std::string_view kind) {
  Statement row = inside_->ask(
      "SELECT id, job, plan, kind, made_at, bytes FROM sheet WHERE job = ? AND kind = ? ORDER BY id DESC "
      "LIMIT 1",
      number_of(job), kind);
  if (!row.step()) return std::nullopt;
  Sheet sheet;
  sheet.id = SheetId{row.integer(0)};
  sheet.job = JobId{row.integer(1)};
  sheet.plan = id_of<PlanId>(row.optional_integer(2));
  sheet.kind = row.text(3);
  sheet.made_at = row.instant(4);
  sheet.bytes = row.bytes(5);
  return sheet;
}

}  // namespace weatherstruck::record
