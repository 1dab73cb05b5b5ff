#include "weatherstruck/files/job_writer.h"

#include <utility>

#include "part_writer.h"
#include "shared_sections.h"
#include "weatherstruck/files/clock_text.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/price_json.h"
#include "weatherstruck/files/words.h"

namespace weatherstruck::files {
namespace {

Json strings(const std::vector<std::string>& list) {
  Json out = Json::array();
  for (const auto& text : list)
    out.push_back(text);
  return out;
}

Json site_json(const works::Site& site) {
  Json out = Json::object();
  out["latitude"] = number(site.latitude);
  out["longitude"] = number(site.longitude);
  if (site.altitude) out["altitude"] = number(*site.altitude);
  out["zone"] = site.zone.name();
  out["soil"] = word_for(site.soil);
  out["mixer"] = word_for(site.mixer);
  out["routes"] = Json::array();
  for (const auto& route : site.routes) {
    out["routes"].push_back({{"name", route.name},
                             {"length", number(route.length)},
                             {"rise", number(route.rise)},
                             {"steps", route.steps},
                             {"narrowest", number(route.narrowest)},
                             {"shut_by", strings(route.shut_by)}});
  }
  out["noisy"] = {{"monday_to_friday", spans_json(site.noisy.monday_to_friday)},
                  {"saturday", spans_json(site.noisy.saturday)},
                  {"sunday", spans_json(site.noisy.sunday)}};
  return out;
}

Json trip_json(const works::Trip& trip) {
  return {{"leave_home", moment_text(trip.leave_home, trip.home_zone)},
          {"home_by", moment_text(trip.home_by, trip.home_zone)},
          {"drive_out", duration(trip.drive_out)},
          {"drive_back", duration(trip.drive_back)},
          {"home_zone", trip.home_zone.name()},
          {"working_day", span_text(trip.working_day)},
          {"longest_day", duration(trip.longest_day)}};
}

Json tasks_json(const works::Job& job) {
  Json out = Json::array();
  for (const auto& task : job.tasks) {
    out.push_back({{"name", task.name},
                   {"title", task.title},
                   {"operation", word_for(task.operation)},
                   {"hours", duration(task.hours)},
                   {"people", task.people},
                   {"after", strings(task.after)},
                   {"importance", word_for(task.importance)},
                   {"noisy", task.noisy}});
  }
  return out;
}

Json supplies_json(const works::Job& job) {
  const auto& supplies = job.supplies;
  Json out = Json::object();
  if (supplies.merchant) {
    out["merchant"] = {{"drive_each_way", duration(supplies.merchant->drive_each_way)},
                       {"monday_to_friday", spans_json(supplies.merchant->monday_to_friday)},
                       {"saturday", spans_json(supplies.merchant->saturday)}};
  }
  out["deliveries"] = Json::array();
  for (const auto& delivery : supplies.deliveries) {
    out["deliveries"].push_back({{"material", delivery.material},
                                 {"amount", number(delivery.amount)},
                                 {"at", moment_text(delivery.at, job.site.zone)}});
  }
  out["on_site"] = strings(supplies.on_site);
  out["stock"] = Json::array();
  for (const auto& line : supplies.stock)
    out["stock"].push_back({{"material", line.material}, {"amount", number(line.amount)}});
  return out;
}

}  // namespace

Json job_to_json(const works::Job& job) {
  Json out = Json::object();
  out["weatherstruck"] = job_schema_version;
  out["job"] = {{"name", job.name}, {"title", job.title}};
  out["customer"] = {{"name", job.customer.name}, {"address", job.customer.address}};
  // What only electronic invoices want is written where it is said.
  const auto customer = [&](const char* key, const std::string& value) {
    if (!value.empty()) out["customer"][key] = value;
  };
  customer("town", job.customer.town);
  customer("postcode", job.customer.postcode);
  customer("country", job.customer.country);
  customer("tax_number", job.customer.tax_number);
  customer("registration", job.customer.registration);
  customer("reference", job.customer.reference);
  customer("purchase_order", job.customer.purchase_order);
  out["site"] = site_json(job.site);
  out["trip"] = trip_json(job.trip);
  out["crew"] = crew_json(job.crew);
  out["kit"] = kit_json(job.kit);
  out["limits"] = limits_json(job.limits);
  out["practice"] = practice_json(job.practice);
  out["parts"] = parts_json(job);
  out["tasks"] = tasks_json(job);
  out["supplies"] = supplies_json(job);
  out["fixed_times"] = Json::array();
  for (const auto& fixed : job.fixed) {
    out["fixed_times"].push_back({{"title", fixed.title},
                                  {"from", moment_text(fixed.from, job.site.zone)},
                                  {"to", moment_text(fixed.to, job.site.zone)}});
  }
  out["fallbacks"] = Json::array();
  for (const auto& fallback : job.fallbacks) {
    Json one = {{"kind", word_for(fallback.kind)}, {"part", fallback.part}};
    if (fallback.price) one["price"] = fallback.price->text();
    out["fallbacks"].push_back(std::move(one));
  }
  if (job.price) out["price"] = price_json(*job.price);
  return out;
}

std::string write_job(const works::Job& job) {
  return job_to_json(job).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace weatherstruck::files
