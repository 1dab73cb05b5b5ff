#include "weatherstruck/files/job_reader.h"

#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

#include "job_sense.h"
#include "shared_sections.h"
#include "weatherstruck/files/part_reader.h"
#include "weatherstruck/files/price_json.h"
#include "weatherstruck/files/reader.h"
#include "weatherstruck/works/check.h"
#include "weatherstruck/works/me.h"

namespace weatherstruck::files {
namespace {

using base::Metres;

works::Route read_route(ObjectReader from) {
  works::Route route;
  route.name = from.name("name");
  route.length = from.metres("length", 1, 2000);
  route.rise = from.metres("rise", -30, 30, Metres(0));
  route.steps = from.whole("steps", 0, 200, route.steps);
  route.narrowest = from.metres("narrowest", 0.3, 10, Metres(0.9));
  route.shut_by = from.names("shut_by", 100);
  from.finish();
  return route;
}

works::NoisyHours read_noisy(ObjectReader from) {
  works::NoisyHours noisy;
  noisy.monday_to_friday = from.spans("monday_to_friday", {works::usual_noisy_weekday});
  noisy.saturday = from.spans("saturday", {works::usual_noisy_saturday});
  noisy.sunday = from.spans("sunday", {});
  from.finish();
  return noisy;
}

works::Site read_site(ObjectReader from, const ZoneSource& zones) {
  auto zone = read_zone(from, "zone", zones, nullptr);
  works::Site site{0, 0, {}, std::move(zone), trade::Soil::garden, {}, {}};
  site.latitude = from.number("latitude", {-90, 90, "degrees"});
  site.longitude = from.number("longitude", {-180, 180, "degrees"});
  if (from.member("altitude") != nullptr) site.altitude = from.metres("altitude", -450, 6000, Metres(0));
  site.soil = word(from, "soil", site.soil);
  const auto& routes = from.list("routes", 10, 1);
  for (std::size_t i = 0; i < routes.size(); ++i) {
    site.routes.push_back(
        read_route({from.reading(), routes[i], pointer_to(from.place("routes"), i), "route"}));
  }
  site.noisy = read_noisy(section(from, "noisy", "noisy"));
  site.mixer = word(from, "mixer", site.mixer);
  from.finish();
  return site;
}

works::Trip read_trip(ObjectReader from, const ZoneSource& zones, const base::Zone& site_zone) {
  auto zone = read_zone(from, "home_zone", zones, &site_zone);
  const auto leave = from.moment("leave_home", zone);
  const auto back = from.moment("home_by", zone);
  const auto out = from.hours("drive_out", 0, 24);
  works::Trip trip{leave, back, out, {}, std::move(zone), {}, {}};
  trip.drive_back = from.hours("drive_back", 0, 24, out);
  trip.working_day = from.span("working_day", works::usual_working_day);
  trip.longest_day = from.hours("longest_day", 1, 16, works::usual_longest_day);
  from.finish();
  return trip;
}

works::ExtraTask read_task(ObjectReader from) {
  works::ExtraTask task;
  task.name = from.name("name");
  task.title = from.text("title", 120, task.name);
  task.operation = word(from, "operation", task.operation);
  task.hours = from.hours("hours", 0.05, 200);
  task.people = from.whole("people", 1, 6, task.people);
  task.after = from.names("after", 100);
  task.importance = word(from, "importance", task.importance);
  task.noisy = from.truth("noisy", task.noisy);
  from.finish();
  return task;
}

works::Supplies read_supplies(ObjectReader from, const base::Zone& zone) {
  works::Supplies supplies;
  if (const Json* value = from.member("merchant")) {
    ObjectReader entry(from.reading(), *value, from.place("merchant"), "merchant");
    works::Merchant merchant;
    merchant.drive_each_way = entry.hours("drive_each_way", 0, 12);
    merchant.monday_to_friday = entry.spans("monday_to_friday", {works::usual_merchant_weekday});
    merchant.saturday = entry.spans("saturday", {works::usual_merchant_saturday});
    entry.finish();
    supplies.merchant = std::move(merchant);
  }
  const auto& list = from.list("deliveries", 100);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader entry(from.reading(), list[i], pointer_to(from.place("deliveries"), i), "delivery");
    works::Delivery delivery;
    delivery.material = entry.table_key("material");
    delivery.amount = entry.number("amount", {1e-6, 1e6, ""});
    delivery.at = entry.moment("at", zone);
    entry.finish();
    supplies.deliveries.push_back(std::move(delivery));
  }
  supplies.on_site = from.table_keys("on_site", 100);
  const auto& stock = from.list("stock", 100);
  for (std::size_t i = 0; i < stock.size(); ++i) {
    ObjectReader entry(from.reading(), stock[i], pointer_to(from.place("stock"), i), "stock");
    works::StockAtWork line;
    line.material = entry.table_key("material");
    line.amount = entry.number("amount", {0, 1e6, ""});
    entry.finish();
    supplies.stock.push_back(std::move(line));
  }
  from.finish();
  return supplies;
}

std::vector<works::FixedTime> read_fixed(ObjectReader& document, const base::Zone& zone) {
  std::vector<works::FixedTime> out;
  const auto& list = document.list("fixed_times", 100);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader entry(document.reading(), list[i], pointer_to(document.place("fixed_times"), i),
                       "fixed_time");
    works::FixedTime fixed;
    fixed.title = entry.text("title", 120);
    fixed.from = entry.moment("from", zone);
    fixed.to = entry.moment("to", zone);
    entry.finish();
    out.push_back(std::move(fixed));
  }
  return out;
}

std::vector<works::Fallback> read_fallbacks(ObjectReader& document) {
  std::vector<works::Fallback> out;
  const auto& list = document.list("fallbacks", 50);
  for (std::size_t i = 0; i < list.size(); ++i) {
    ObjectReader entry(document.reading(), list[i], pointer_to(document.place("fallbacks"), i), "fallback");
    works::Fallback fallback;
    fallback.kind = entry.word<works::Fallback::Kind>("kind", words_of<works::Fallback::Kind>());
    fallback.part = entry.name("part");
    fallback.price = entry.money("price");
    entry.finish();
    out.push_back(std::move(fallback));
  }
  return out;
}

works::Job read_document(Reading& reading, const Json& value, const ZoneSource& zones) {
  ObjectReader document(reading, value, "", "job_document");
  read_version(document, job_schema_version);
  auto head = section(document, "job", "job");
  auto name = head.name("name");
  auto title = head.text("title", 120, name);
  head.finish();
  auto who = section(document, "customer", "customer");
  works::Customer customer{who.text("name", 120, ""), who.text("address", 300, "")};
  customer.town = who.text("town", 120, "");
  customer.postcode = who.text("postcode", 42, "");
  customer.country = who.text("country", 2, "");
  customer.tax_number = who.text("tax_number", 40, "");
  customer.registration = who.text("registration", 42, "");
  customer.reference = who.text("reference", 120, "");
  customer.purchase_order = who.text("purchase_order", 120, "");
  who.finish();
  auto site = read_site(section(document, "site", "site"), zones);
  auto trip = read_trip(section(document, "trip", "trip"), zones, site.zone);
  works::Job job{std::move(name),
                 std::move(title),
                 std::move(customer),
                 std::move(site),
                 std::move(trip),
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {},
                 {}};
  job.crew = read_crew(document);
  job.kit = read_kit(section(document, "kit", "kit"));
  job.limits = read_limits(section(document, "limits", "limits"));
  job.practice = read_practice(section(document, "practice", "practice"));
  read_parts(document, job);
  const auto& tasks = document.list("tasks", 200);
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    job.tasks.push_back(read_task({reading, tasks[i], pointer_to("/tasks", i), "task"}));
  }
  job.supplies = read_supplies(section(document, "supplies", "supplies"), job.site.zone);
  job.fixed = read_fixed(document, job.site.zone);
  job.fallbacks = read_fallbacks(document);
  if (const Json* price = document.member("price"))
    job.price = read_price({reading, *price, "/price", "price"});
  document.finish();
  works::settle_own_figures(job);
  return job;
}

}  // namespace

JobRead read_job(std::string_view text, const ZoneSource& zones) {
  JobRead out;
  auto parsed = parse_json(text, JsonLimits::job_document());
  out.lines = std::move(parsed.lines);
  if (!parsed.value) {
    out.faults = std::move(parsed.faults);
    return out;
  }
  Reading reading;
  auto job = read_document(reading, *parsed.value, zones);
  out.faults = reading.take_faults();
  out.shapes = std::move(reading.shapes());
  auto sense = findings_beside(works::check(job), job, out.faults);
  out.faults.insert(out.faults.end(), sense.faults.begin(), sense.faults.end());
  out.advice = std::move(sense.advice);
  in_order_of_text(out.faults, out.lines);
  in_order_of_text(out.advice, out.lines);
  if (out.faults.empty()) out.job = std::move(job);
  return out;
}

std::optional<std::size_t> line_of(const JsonLines& lines, std::string_view pointer) {
  if (!pointer.empty() && pointer[0] != '/') return {};
  while (true) {
    const auto at = lines.find(pointer);
    if (at != lines.end()) return at->second;
    if (pointer.empty()) return {};
    pointer = pointer.substr(0, pointer.find_last_of('/'));
  }
}

}  // namespace weatherstruck::files
