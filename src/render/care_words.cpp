#include "care_words.h"

#include <algorithm>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/turn_words.h"

namespace weatherstruck::render::care {

using html::element;
using html::Html;
using html::line;

base::Instant leaves_at(const TripFacts& facts) {
  if (facts.plan.leaves_site) return *facts.plan.leaves_site;
  base::Instant last = facts.now;
  for (const auto& task : facts.plan.tasks) {
    if (task.placed()) last = std::max(last, task.finish());
  }
  return last;
}

std::string day_time(const works::Job& job, base::Instant t) {
  const base::LocalTime local = to_quarter(job.site.zone.to_local(t));
  base::LocalDay day = std::chrono::floor<std::chrono::days>(local);
  const auto clock = local - base::LocalTime(day);
  const auto& hours = job.trip.working_day;
  if (clock > hours.from && clock < hours.to)
    return base::day_name(day) + ", about " + base::clock_time(local);
  if (clock >= hours.to) day += std::chrono::days(1);
  return base::day_name(day) + ", morning";
}

std::string day_time(const works::Job& job, const programme::MayBear& may) {
  if (!may.from) return "a test shows that it has hardened: too cold to reckon";
  return day_time(job, *may.from) +
         (may.beyond_forecast ? " (beyond the forecast; later if it is cold)" : "");
}

bool is_done(const TripFacts& facts, std::size_t task) {
  if (facts.progress == nullptr) return facts.plan.tasks[task].placed();
  const works::TaskProgress* done = facts.progress->find(facts.plan.tasks[task].task);
  return done != nullptr && done->finished.has_value();
}

bool to_fill(const TripFacts& facts, const works::Name& of) {
  for (std::size_t i = 0; i < facts.plan.tasks.size(); ++i) {
    const works::Task* task = facts.list.find(facts.plan.tasks[i].task);
    if (task == nullptr || task->of != of || !facts.plan.tasks[i].present || is_done(facts, i)) continue;
    if (task->operation == trade::Operation::fill_bed || task->operation == trade::Operation::backfill)
      return true;
  }
  return false;
}

std::vector<std::string> left_undone(const TripFacts& facts) {
  const auto begun = [&](const works::Name& of) {
    for (std::size_t i = 0; i < facts.plan.tasks.size(); ++i) {
      const works::Task* task = facts.list.find(facts.plan.tasks[i].task);
      if (task != nullptr && task->of == of && is_done(facts, i)) return true;
    }
    return false;
  };
  std::vector<std::string> out;
  for (std::size_t i = 0; i < facts.plan.tasks.size(); ++i) {
    const programme::PlannedTask& planned = facts.plan.tasks[i];
    const works::Task* task = facts.list.find(planned.task);
    if (task == nullptr || task->of.empty() || !planned.present || is_done(facts, i)) continue;
    std::string words = begun(task->of) ? capital(inside(task->title)) : "All of the " + spoken(task->of);
    if (std::find(out.begin(), out.end(), words) == out.end()) out.push_back(std::move(words));
  }
  return out;
}

std::string known(const TripFacts& facts) {
  const base::Zone& zone = facts.job.site.zone;
  std::string words = "Made " + base::day_and_time(zone.to_local(facts.now)) + ".";
  if (facts.series.source.empty()) return words;
  words += " Forecast: " + facts.series.source;
  if (facts.series.issued) words += ", issued " + base::day_and_time(zone.to_local(*facts.series.issued));
  words += ".";
  if (!facts.series.attribution.empty()) words += " " + facts.series.attribution;
  return words;
}

Html section(const std::string& id, const std::string& title, const Html& inside) {
  if (inside.empty()) return {};
  return line(element("section", {{"aria-labelledby", id}},
                      line(Html()) + line(element("h2", {{"id", id}}, title)) + inside));
}

Html bullets(const std::vector<std::string>& words) {
  Html items;
  for (const std::string& one : words)
    items += line(element("li", one));
  return items.empty() ? items : line(element("ul", line(Html()) + items));
}

}  // namespace weatherstruck::render::care
