#include "weatherstruck/render/job_recap.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/render/quantities_sheet.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::render {
namespace {

using base::Metres;

constexpr std::size_t beside = 14;

std::string size_words(Metres length, Metres width) {
  return fmt::format("{} x {} m", base::plain_number(length.value(), 3),
                     base::plain_number(width.value(), 3));
}

std::string fall_words(Metres fall, std::string_view along, std::string_view against) {
  if (fall.value() == 0) return {};
  return fmt::format(", ground falls {} {}", length_words(Metres(std::abs(fall.value()))),
                     fall.value() > 0 ? along : against);
}

std::string words_of(const works::Base& part) {
  std::string text = size_words(part.length, part.width);
  text += fmt::format(", {} showing over {} below", count_of(part.courses - part.courses_below, "course"),
                      part.courses_below);
  text += fall_words(part.drop_along_length, "left to right", "right to left");
  text += fall_words(part.drop_along_width, "back to front", "front to back");
  if (part.door_side)
    text += fmt::format(", door of {} at the {}", length_words(part.door_width),
                        works::seen_from_front(*part.door_side));
  text += fmt::format("; footing {} wide, {} deep", length_words(part.footing_width),
                      length_words(part.footing_depth));
  if (!part.plates) text += "; no plates";
  return text;
}

std::string words_of(const works::Bed& part) {
  std::string text =
      "raised bed " + size_words(part.length, part.width) + ", " + count_of(part.courses, "course");
  if (part.sides != 4) text += fmt::format(", {} built", count_of(part.sides, "side"));
  return text + fall_words(part.drop, "along it", "along it");
}

std::string words_of(const works::Path& part) {
  return fmt::format("{} in {}", size_words(part.length, part.width),
                     part.surface == trade::Surface::flags ? "flags" : "gravel");
}

std::string words_of(const works::Steps& part) {
  return fmt::format("{}, {} wide", count_of(part.count, "step"), length_words(part.width));
}

std::string words_of(const works::Box& part) {
  return "brick box " + size_words(part.length, part.width) + ", " + count_of(part.courses, "course");
}

std::string words_of(const works::Footing& part) {
  return fmt::format("footing {} long, {} wide", length_words(part.length), length_words(part.width));
}

std::string words_of(const works::Wall& part) {
  return fmt::format("wall {} long, {}", length_words(part.length), count_of(part.courses, "course"));
}

std::string spoken(const works::Name& name) {
  std::string text = name;
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

std::string way_in(const works::Route& route) {
  std::string text = length_words(route.length);
  if (route.rise.value() != 0)
    text += fmt::format(", {} {}", route.rise.value() > 0 ? "up" : "down",
                        length_words(Metres(std::abs(route.rise.value()))));
  if (route.steps > 0) text += ", " + count_of(route.steps, "step");
  text += ", narrowest place " + length_words(route.narrowest);
  if (!route.shut_by.empty())
    text += "; shut while the " + base::join_and(route.shut_by) + " is open or fresh";
  return text;
}

std::string supplies(const works::Job& job) {
  std::string text;
  for (const works::Delivery& delivery : job.supplies.deliveries) {
    const trade::Material* material = trade::find_material(delivery.material);
    const bool first = text.empty();
    text += first ? "delivered " + base::day_and_time(job.site.zone.to_local(delivery.at)) + ": " : ", ";
    if (material != nullptr)
      text += fmt::format("{} {}", amount(delivery.amount, material->unit), material->title);
  }
  if (text.empty()) text = "all in the van";
  if (job.supplies.merchant)
    text += fmt::format("; merchant {} away", duration_minutes(std::chrono::seconds(std::lround(
                                                  job.supplies.merchant->drive_each_way.value() * 3600))));
  return text;
}

}  // namespace

std::string length_words(Metres length) {
  const double m = length.value();
  if (std::abs(m) > 0 && std::abs(m) < 1) return base::plain_number(m * 1000, 0) + " mm";
  return base::plain_number(m, 3) + " m";
}

std::string part_words(const works::Part& part) {
  return std::visit([](const auto& any) { return words_of(any); }, part);
}

std::string job_recap(const works::Job& job, const works::Bill& bill) {
  Page page;
  page.title(capital(job.title), job.name);
  const auto item = [&](std::string_view label, const std::string& words) {
    page.item(label, words, beside);
  };
  if (!job.customer.name.empty())
    item("for", job.customer.name + (job.customer.address.empty() ? "" : ", " + job.customer.address));
  item("at", works::place_text({job.site.latitude, job.site.longitude}));
  const base::Zone& home = job.trip.home_zone;
  item("trip",
       fmt::format("leave {}, home by {}; {} at the wheel each way",
                   base::day_and_time(home.to_local(job.trip.leave_home)),
                   base::day_and_time(home.to_local(job.trip.home_by)),
                   duration_minutes(std::chrono::seconds(std::lround(job.trip.drive_out.value() * 3600)))));
  for (const works::Part& part : job.parts) {
    const works::Name& name = works::name_of(part);
    std::string words = part_words(part);
    for (const works::PartImportance& one : job.importance) {
      if (one.part == name)
        words += one.importance == works::Importance::may ? "; may wait" : "; may wait, last";
    }
    item(spoken(name), words);
  }
  item("way in", way_in(job.site.routes.front()));
  item("noise", works::noisy_words(job.site.noisy));
  item("takes", fmt::format("{} bricks, {} m3 of concrete, {} to bring", whole(bill.bricks),
                            base::plain_number(bill.concrete.value(), 2), mass(bill.mass)));
  item("brought", supplies(job));
  if (job.price && job.price->fixed) item("price", job.price->fixed->text() + " before tax");
  return page.str();
}

std::vector<std::string> assumed_in(const works::Job& job) {
  std::vector<std::string> out;
  out.push_back("the site keeps the clock of " + job.site.zone.name());
  if (!job.site.altitude) out.emplace_back("the altitude is that of the forecast");
  out.push_back("the soil is " + std::string(trade::row_for(job.site.soil).title));
  bool base = false;
  for (const works::Part& part : job.parts)
    base = base || std::holds_alternative<works::Base>(part);
  if (base) out.emplace_back("seen from the front: front is called south, back north, left west, right east");
  out.emplace_back("facing bricks in half-brick stretcher bond, class B engineering bricks below ground");
  out.push_back(fmt::format("{} cement; waste of {} % in bricks, {} % in mortar, {} % in concrete",
                            job.practice.cement == trade::CementSpeed::rapid  ? "rapid"
                            : job.practice.cement == trade::CementSpeed::slow ? "slow"
                                                                              : "normal",
                            base::plain_number(job.practice.brick_waste * 100, 1),
                            base::plain_number(job.practice.mortar_waste * 100, 1),
                            base::plain_number(job.practice.concrete_waste * 100, 1)));
  return out;
}

std::string turn_sheet(const works::Turned& turned, const works::Job& before, const works::Name& part) {
  const auto find = [&](const works::Job& job) -> const works::Part& {
    return *std::find_if(job.parts.begin(), job.parts.end(),
                         [&](const works::Part& p) { return works::name_of(p) == part; });
  };
  Page page;
  page.title(capital(spoken(part)) + " turned by a quarter");
  page.item("was", part_words(find(before)), beside);
  page.item("is", part_words(find(turned.job)), beside);
  page.gap();
  Table table({{"", Table::Kind::left}, {"before", Table::Kind::right}, {"after", Table::Kind::right}});
  const auto row = [&](const std::string& what, const std::string& was, const std::string& is) {
    table.add({what, was, is});
  };
  for (const works::RunTake& was : turned.before.runs) {
    const auto is = std::find_if(turned.after.runs.begin(), turned.after.runs.end(),
                                 [&](const works::RunTake& r) { return r.name == was.name; });
    if (is == turned.after.runs.end()) continue;
    row(spoken(was.name) + ": courses at the low end", std::to_string(was.courses),
        std::to_string(is->courses));
    if (was.steps > 0 || is->steps > 0)
      row(spoken(was.name) + ": steps of the footing", std::to_string(was.steps), std::to_string(is->steps));
  }
  row("bricks", whole(turned.before.bricks), whole(turned.after.bricks));
  row("steps of the footings", std::to_string(turned.before.steps()), std::to_string(turned.after.steps()));
  row("concrete, m3", base::plain_number(turned.before.concrete.value(), 2),
      base::plain_number(turned.after.concrete.value(), 2));
  row("trench to dig, m3", base::plain_number(turned.before.trench.value(), 2),
      base::plain_number(turned.after.trench.value(), 2));
  page.table(table);
  page.gap();
  page.text(
      "The ground stays as it lies: what fell over the old length falls at the same slope over the new.");
  return page.str();
}

}  // namespace weatherstruck::render
