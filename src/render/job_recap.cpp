#include "weatherstruck/render/job_recap.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "weatherstruck/base/text.h"
#include "weatherstruck/measure/brickwork.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/render/quantities_sheet.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/works/answer_pieces.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/length_words.h"

namespace weatherstruck::render {
namespace {

using base::Metres;
using works::Measure;

constexpr std::size_t beside = 14;

std::string fall_words(Metres fall, std::string_view along, std::string_view against, Measure measure) {
  if (fall.value() == 0) return {};
  return fmt::format(", ground falls {} {}", length_text(Metres(std::abs(fall.value())), measure),
                     fall.value() > 0 ? along : against);
}

std::string words_of(const works::Base& part, Measure measure) {
  std::string text = size_text({part.length, part.width}, measure);
  text += fmt::format(", {} showing over {} below", count_of(part.courses - part.courses_below, "course"),
                      part.courses_below);
  text += fall_words(part.drop_along_length, "left to right", "right to left", measure);
  text += fall_words(part.drop_along_width, "back to front", "front to back", measure);
  if (works::is_open_sided(part))
    text += fmt::format(
        ", walls on three sides, open at the {} (strip and bricks below ground run through there)",
        works::seen_from_front(*part.door_side));
  else if (part.door_side)
    text += fmt::format(", door of {} at the {}", length_text(part.door_width, measure),
                        works::seen_from_front(*part.door_side));
  text +=
      "; footing " + strip_text({part.footing_width, part.footing_thickness, part.footing_depth}, measure);
  text += part.plates ? "; timber plates, strapped" : "; no plates";
  return text;
}

std::string words_of(const works::Bed& part, Measure measure) {
  std::string text =
      "raised bed " + size_text({part.length, part.width}, measure) + ", " + count_of(part.courses, "course");
  if (part.sides == 3) text += ", front and both ends built";
  if (part.sides == 2) text += ", front and left end built";
  if (part.sides == 1) text += ", front alone built";
  return text + fall_words(part.drop, "along it", "along it", measure);
}

std::string words_of(const works::Path& part, Measure measure) {
  return size_text({part.length, part.width}, measure) + (measure == Measure::feet ? ", in " : " in ") +
         (part.surface == trade::Surface::flags ? "flags" : "gravel");
}

std::string words_of(const works::Steps& part, Measure measure) {
  return fmt::format("{}, {} wide", count_of(part.count, "step"), length_text(part.width, measure));
}

std::string words_of(const works::Box& part, Measure measure) {
  return "brick box " + size_text({part.length, part.width}, measure) + ", " +
         count_of(part.courses, "course");
}

std::string words_of(const works::Footing& part, Measure measure) {
  return fmt::format("footing {} long, {} wide", length_text(part.length, measure),
                     length_text(part.width, measure));
}

std::string words_of(const works::Wall& part, Measure measure) {
  return fmt::format("wall {} long, {} showing over {} below, {} thick{}", length_text(part.length, measure),
                     count_of(part.courses - part.courses_below, "course"), part.courses_below,
                     length_text(measure::thickness_of(part.bond), measure),
                     part.coping ? ", with a coping" : "");
}

std::string spoken(const works::Name& name) {
  std::string text = name;
  std::replace(text.begin(), text.end(), '-', ' ');
  return text;
}

std::string way_in(const works::Route& route, Measure measure) {
  std::string text = way_in_text({route.length, route.rise, route.steps, route.narrowest}, measure);
  if (!route.shut_by.empty())
    text += "; shut while the " + base::join_and(route.shut_by) + " is open or fresh";
  return text;
}

std::string supplied(const works::Delivery& delivery, const trade::Material& material, Measure measure) {
  if (measure == Measure::feet && material.unit == "m3")
    return concrete_text(base::CubicMetres(delivery.amount), measure);
  if (measure == Measure::feet && material.unit == "kg")
    return mass_text(base::Kilograms(delivery.amount), measure);
  return amount(delivery.amount, material.unit);
}

std::string supplies(const works::Job& job) {
  const Measure measure = works::measure_of(job.limits.set);
  std::string text;
  for (const works::Delivery& delivery : job.supplies.deliveries) {
    const trade::Material* material = trade::find_material(delivery.material);
    const bool first = text.empty();
    text += first ? "delivered " + base::day_and_time(job.site.zone.to_local(delivery.at)) + ": " : ", ";
    if (material != nullptr)
      text += fmt::format("{} {}", supplied(delivery, *material, measure), material->title);
  }
  if (text.empty()) text = "all in the van";
  if (job.supplies.merchant)
    text += fmt::format("; merchant {} away", duration_minutes(std::chrono::seconds(std::lround(
                                                  job.supplies.merchant->drive_each_way.value() * 3600))));
  return text;
}

}  // namespace

std::string part_words(const works::Part& part, Measure measure) {
  return std::visit([&](const auto& any) { return words_of(any, measure); }, part);
}

base::Kilograms mass_used(const works::Bill& bill) {
  base::Kilograms sum{0};
  for (const works::TotalLine& line : bill.totals)
    sum += line.on_site || line.bought <= 0 ? line.mass : line.mass * (line.total / line.bought);
  return sum;
}

std::string modular_brick_note() {
  // US modular, 7 5/8 x 3 5/8 x 2 1/4 in with 3/8 in joints: three courses in 8 in, 6.75 a square foot (Brick
  // Industry Association, Technical Note 10, from memory).
  const double reckoned = trade::row_for(trade::Bond::half_stretcher).bricks_per_m2_exact * 0.3048 * 0.3048;
  constexpr double modular = 6.75;
  return fmt::format(
      "bricks are reckoned as 8 1/2 x 4 x 2 1/2 in (215 x 102.5 x 65 mm), {:.1f} a square foot; of "
      "modular ones, {} a square foot, about {} % more are needed",
      reckoned, base::plain_number(modular, 2), whole((modular / reckoned - 1) * 100));
}

std::string job_recap(const works::Job& job, const works::Bill& bill) {
  const Measure measure = works::measure_of(job.limits.set);
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
    std::string words = part_words(part, measure);
    for (const works::PartImportance& one : job.importance) {
      if (one.part == name)
        words += one.importance == works::Importance::may ? "; may wait" : "; may wait, last";
    }
    item(spoken(name), words);
  }
  for (const works::ExtraTask& task : job.tasks)
    item("besides",
         task.title + ", " + duration_minutes(std::chrono::seconds(std::lround(task.hours.value() * 3600))));
  item("way in", way_in(job.site.routes.front(), measure));
  item("on site", fmt::format("{}, at most {} h of work a day", works::span_words(job.trip.working_day),
                              base::plain_number(job.trip.longest_day.value(), 2)));
  item("noise", works::noisy_words(job.site.noisy));
  std::string takes;
  if (bill.bricks > 0) takes += count_of(std::lround(bill.bricks), "brick") + ", ";
  if (bill.concrete.value() > 0) takes += concrete_text(bill.concrete, measure) + " of concrete, ";
  item("takes", fmt::format("{}{} with waste", takes, mass_text(mass_used(bill), measure)));
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
  const bool plates = std::any_of(job.parts.begin(), job.parts.end(), [](const works::Part& part) {
    const auto* walls = std::get_if<works::Base>(&part);
    return walls != nullptr && walls->plates;
  });
  if (plates)
    out.emplace_back(
        "timber plates are bedded and strapped on the walls of the base (none where nothing stands on it)");
  if (base) out.emplace_back("seen from the front: front is called south, back north, left west, right east");
  const Measure measure = works::measure_of(job.limits.set);
  // Beds of one kind in one entry.
  std::vector<std::pair<std::string, std::vector<std::string>>> strips;
  for (const works::Part& part : job.parts) {
    const auto* bed = std::get_if<works::Bed>(&part);
    if (bed == nullptr) continue;
    const std::string strip =
        strip_text({bed->footing_width, bed->footing_thickness, bed->footing_depth}, measure);
    const auto same =
        std::find_if(strips.begin(), strips.end(), [&](const auto& one) { return one.first == strip; });
    (same == strips.end() ? strips.emplace_back(strip, std::vector<std::string>{}) : *same)
        .second.push_back("the " + spoken(bed->name));
  }
  for (const auto& [strip, beds] : strips)
    out.push_back(fmt::format("concrete of {} under {}; ground that frost lifts wants it deeper", strip,
                              base::join_and(beds)));
  const bool in_brick = std::any_of(job.parts.begin(), job.parts.end(), [](const works::Part& part) {
    return !std::holds_alternative<works::Path>(part) && !std::holds_alternative<works::Footing>(part);
  });
  if (measure == Measure::feet && in_brick) {
    out.emplace_back(
        "the footings go as deep as was said, which is for the local code to judge: where winters are hard "
        "the "
        "frost line lies feet below the ground");
    out.push_back(modular_brick_note());
  }
  if (in_brick)
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
  const Measure measure = works::measure_of(before.limits.set);
  Page page;
  page.title(capital(spoken(part)) + " turned by a quarter");
  page.item("was", part_words(find(before), measure), beside);
  page.item("is", part_words(find(turned.job), measure), beside);
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
