#include "weatherstruck/render/as_built_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "care_words.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/programme/after_trip.h"
#include "weatherstruck/render/part_sizes.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/render/turn_words.h"
#include "weatherstruck/works/expand.h"

namespace weatherstruck::render {
namespace {

using html::element;
using html::Html;
using html::line;
using programme::MayBear;

class Builder {
 public:
  explicit Builder(const TripFacts& facts)
      : facts_(facts),
        job_(facts.job),
        expansion_(works::expand(facts.job)),
        bears_(programme::may_bear(job_, facts.list, facts.series, facts.limits, facts.plan)) {}

  AsBuiltSheet tell() {
    AsBuiltSheet out;
    out.title = "As built";
    out.job = job_.title + (job_.customer.name.empty() ? "" : ", for " + job_.customer.name);
    out.warning = warning(facts_);
    out.state = (facts_.progress != nullptr
                     ? "What is done is by the site book; "
                     : "No site book: what is done is by the plan, as if it had been followed; ") +
                std::string("sizes are those that were set out, not measured again. ") + care::known(facts_);
    for (const PartSizes& sizes : part_sizes(job_, expansion_))
      out.parts.push_back(part(sizes));
    out.left = care::left_undone(facts_);
    if (facts_.progress != nullptr) {
      const base::Zone& zone = job_.site.zone;
      for (const auto& note : facts_.progress->notes)
        out.notes.push_back(base::day_and_time(zone.to_local(note.at)) + ": " + note.what.text);
    }
    return out;
  }

 private:
  AsBuiltSheet::Part part(const PartSizes& sizes) {
    AsBuiltSheet::Part out;
    out.title = capital(sizes.title);
    out.standing = standing(sizes.of);
    for (const std::string& size : sizes.sizes)
      out.sizes.push_back(capital(size));
    for (const CornerCourses& corner : sizes.corners)
      out.corners.push_back({corner.which, corner.courses, static_cast<double>(course_top(corner.courses))});
    for (const std::string& opening : sizes.openings)
      out.openings.push_back(opening);
    levels(sizes.of, out);
    for (const MayBear& may : bears_) {
      // Half height is only told while there is something to fill.
      if (may.of != sizes.of) continue;
      if (may.load != MayBear::Load::soil_half || care::to_fill(facts_, may.of))
        out.bears.push_back(bearing(may));
    }
    return out;
  }

  [[nodiscard]] std::string standing(const works::Name& of) const {
    int all = 0;
    int done = 0;
    std::string courses;
    for (std::size_t i = 0; i < facts_.plan.tasks.size(); ++i) {
      const works::Task* task = facts_.list.find(facts_.plan.tasks[i].task);
      if (task == nullptr || task->of != of || !facts_.plan.tasks[i].present) continue;
      ++all;
      if (care::is_done(facts_, i)) ++done;
      const works::TaskProgress* progress =
          facts_.progress != nullptr ? facts_.progress->find(task->name) : nullptr;
      const int total = static_cast<int>(task->courses.size());
      if (progress != nullptr && progress->courses_done > 0 && progress->courses_done < total) {
        courses += fmt::format("; {}: {} of {} courses", inside(task->title), progress->courses_done, total);
      }
    }
    if (done == 0 && courses.empty()) return "Not begun";
    return (done == all ? std::string("Finished") : fmt::format("{} of {} tasks finished", done, all)) +
           courses;
  }

  void levels(const works::Name& of, AsBuiltSheet::Part& out) const {
    bool has_footing = false;
    for (const works::FootingPart& footing : expansion_.footings) {
      if (footing.of != of) continue;
      has_footing = true;
      const std::string name = footing.title.substr(0, footing.title.find(" of "));
      if (facts_.progress == nullptr) continue;
      for (const works::FootingRead& read : facts_.progress->footings) {
        if (read.footing != footing.shape.name) continue;
        for (const measure::Level& level : read.levels)
          out.levels.push_back({name, level.along.value(), level.below.value() * 1000});
      }
    }
    if (out.corners.empty() || !has_footing) return;
    out.level_note =
        out.levels.empty()
            ? "No level was read: courses are by the fall that was guessed."
            : "Ground levels as read, each along its footing from the high end; courses follow them.";
  }

  [[nodiscard]] std::string bearing(const MayBear& may) const {
    const auto load = [&]() -> std::string {
      switch (may.load) {
        case MayBear::Load::bricks:
          return "Bricks on the concrete";
        case MayBear::Load::feet:
          return "Feet";
        case MayBear::Load::soil_half:
          return "Soil to half height";
        case MayBear::Load::soil:
          return "Soil to the top, or a load against it";
        case MayBear::Load::roof:
          return "A frame or roof on the plates";
      }
      return {};
    };
    const bool already = may.from && *may.from <= care::leaves_at(facts_);
    return load() +
           (already ? ": now" : (may.from ? ": from " : ": not before ") + care::day_time(job_, may));
  }

  const TripFacts& facts_;
  const works::Job& job_;
  works::Expansion expansion_;
  std::vector<MayBear> bears_;
};

std::string along_words(const AsBuiltSheet::Read& read) {
  return base::plain_number(read.along, 2) + " m";
}
std::string below_words(const AsBuiltSheet::Read& read) {
  const double off = std::round(read.below);
  if (off == 0) return "level";
  return fmt::format("{:.0f} mm {}", std::abs(off), off > 0 ? "below" : "above");
}

Html rows(const std::vector<std::string>& head, const std::vector<std::vector<std::string>>& body,
          const std::string& label) {
  Html titles;
  for (const std::string& cell : head)
    titles += element("th", {{"scope", "col"}}, cell);
  Html lines;
  for (const std::vector<std::string>& row : body) {
    Html cells = element("th", {{"scope", "row"}}, row.front());
    for (std::size_t i = 1; i < row.size(); ++i)
      cells += element("td", row[i]);
    lines += line(element("tr", cells));
  }
  return line(element(
      "table", {{"aria-label", label}},
      line(Html()) + line(element("thead", element("tr", titles))) + element("tbody", line(Html()) + lines)));
}

std::vector<std::vector<std::string>> corner_rows(const AsBuiltSheet::Part& part) {
  std::vector<std::vector<std::string>> out;
  for (const auto& corner : part.corners)
    out.push_back({corner.which, std::to_string(corner.courses), fmt::format("{:.0f} mm", corner.height)});
  return out;
}
std::vector<std::vector<std::string>> level_rows(const AsBuiltSheet::Part& part) {
  std::vector<std::vector<std::string>> out;
  for (const auto& read : part.levels)
    out.push_back({read.footing, along_words(read), below_words(read)});
  return out;
}
const std::vector<std::string> corner_head{"Corner", "Courses", "Top above concrete"};
const std::vector<std::string> level_head{"Footing", "Along", "Ground against the high end"};

}  // namespace

AsBuiltSheet as_built_sheet_of(const TripFacts& facts) {
  return Builder(facts).tell();
}

std::string as_built_text(const AsBuiltSheet& sheet, Ink ink) {
  Page page(ink);
  page.title(sheet.title);
  page.text(sheet.job);
  page.text(sheet.warning);
  const auto table = [&page](const std::vector<std::string>& head,
                             const std::vector<std::vector<std::string>>& body) {
    if (body.empty()) return;
    Table out({{head[0], Table::Kind::left}, {head[1], Table::Kind::right}, {head[2], Table::Kind::left}});
    for (const auto& row : body)
      out.add(row);
    page.gap();
    page.table(out, 4);
    page.gap();
  };
  for (const AsBuiltSheet::Part& part : sheet.parts) {
    page.heading(part.title);
    page.text(part.standing + ".", 2);
    for (const std::string& size : part.sizes)
      page.text(size, 2);
    for (const std::string& opening : part.openings)
      page.text("Opening, " + opening, 2);
    table(corner_head, corner_rows(part));
    page.text(part.level_note, 2);
    table(level_head, level_rows(part));
    if (!part.bears.empty()) page.text("It carries:", 2);
    for (const std::string& words : part.bears)
      page.text(words, 4);
  }
  const auto words = [&page](const std::string& heading, const std::vector<std::string>& all) {
    if (all.empty()) return;
    page.heading(heading);
    for (const std::string& one : all)
      page.text(one, 2);
  };
  words("Left for the next trip", sheet.left);
  words("Notes", sheet.notes);
  page.gap();
  page.text(sheet.state);
  return page.str();
}

std::string as_built_html(const AsBuiltSheet& sheet) {
  Html head = line(Html()) + line(element("h1", sheet.title)) + line(element("p", sheet.job));
  if (!sheet.warning.empty()) head += line(element("p", {{"class", "warning"}}, sheet.warning));
  Html parts;
  int number = 0;
  for (const AsBuiltSheet::Part& part : sheet.parts) {
    Html inside = line(element("p", part.standing + "."));
    std::vector<std::string> sizes = part.sizes;
    for (const std::string& opening : part.openings)
      sizes.push_back("Opening, " + opening);
    inside += care::bullets(sizes);
    if (!part.corners.empty())
      inside += rows(corner_head, corner_rows(part), part.title + ": courses at the corners");
    if (!part.level_note.empty()) inside += line(element("p", part.level_note));
    if (!part.levels.empty()) inside += rows(level_head, level_rows(part), part.title + ": levels read");
    if (!part.bears.empty()) inside += line(element("h3", "It carries")) + care::bullets(part.bears);
    parts += care::section("part-" + std::to_string(++number), part.title, inside);
  }
  parts += care::section("left", "Left for the next trip", care::bullets(sheet.left));
  parts += care::section("notes", "Notes", care::bullets(sheet.notes));
  Html body = line(element("header", head)) + line(element("main", line(Html()) + parts));
  body += line(element("footer", element("p", {{"class", "small"}}, sheet.state)));
  constexpr std::string_view style = "\ntable { margin: .5rem 0; }\n";
  return html::document({sheet.title + ": " + sheet.job, body, style, {}});
}

}  // namespace weatherstruck::render
