#include "weatherstruck/render/setting_out_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "care_words.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/measure/setting_out.h"
#include "weatherstruck/render/part_sizes.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using base::Metres;
using html::element;
using html::Html;
using html::line;

std::string by(Metres a, Metres b) {
  return base::plain_number(a.value(), 3) + " x " + metres(b);
}
std::string millimetres(Metres length) {
  return fmt::format("{} mm", std::lround(length.value() * 1000));
}
std::string halves(double bricks) {
  return bricks > 0 ? base::plain_number(bricks, 1) : std::string();
}
// "north footing" where the part's own name already stands above it.
std::string short_title(const std::string& title) {
  return title.substr(0, title.find(" of the "));
}

class Setter {
 public:
  Setter(const works::Job& job, const works::Expansion& expansion) : job_(job), expansion_(expansion) {}

  SettingOutSheet tell() {
    SettingOutSheet out;
    out.job = job_.title;
    for (const works::Group& group : expansion_.groups)
      out.parts.push_back(part(group));
    return out;
  }

 private:
  struct Ring {
    Metres length, width, wall, footing;
  };
  /// The rectangle a group was written as, where all four sides of it are built.
  [[nodiscard]] std::optional<Ring> ring_of(const works::Group& group) const {
    if (group.kind == works::Group::Kind::single || group.walls.size() != 4) return std::nullopt;
    std::optional<Ring> ring;
    for (const std::size_t w : group.walls) {
      const works::Wall& shape = expansion_.walls[w].shape;
      if (!ring) ring = Ring{};
      (shape.shared_corners == 0 ? ring->length : ring->width) = shape.length;
      ring->wall = measure::thickness_of(shape.bond);
    }
    ring->footing = expansion_.footings[group.footings.front()].shape.width;
    return ring;
  }

  SettingOutSheet::Part part(const works::Group& group) {
    SettingOutSheet::Part out;
    out.title = capital(group.title);
    const auto ring = ring_of(group);
    if (ring) {
      const measure::RingLines lines =
          measure::ring_lines(ring->length, ring->width, ring->wall, ring->footing);
      out.rough.push_back("Outer edge of the trench " +
                          by(lines.trench_outer.length, lines.trench_outer.width) + ", both diagonals " +
                          metres(lines.trench_outer.diagonal) + ".");
      if (lines.trench_inner.diagonal.value() > 0) {
        out.rough.push_back("Inner edge " + by(lines.trench_inner.length, lines.trench_inner.width) +
                            ", diagonals " + metres(lines.trench_inner.diagonal) + ".");
      }
      out.true_lines.push_back("Outside of the brickwork " +
                               by(lines.wall_outer.length, lines.wall_outer.width) + ", both diagonals " +
                               metres(lines.wall_outer.diagonal) + ".");
      if (lines.wall_inner.diagonal.value() > 0) {
        out.true_lines.push_back("Inside " + by(lines.wall_inner.length, lines.wall_inner.width) +
                                 ", diagonals " + metres(lines.wall_inner.diagonal) + ".");
      }
      square(out, ring->length, ring->width);
      out.true_lines.push_back("The line stands " + millimetres((ring->footing - ring->wall) / 2.0) +
                               " in from the edge of the concrete.");
    }
    for (const std::size_t f : group.footings)
      trench(out, expansion_.footings[f]);
    for (const std::size_t w : group.walls)
      wall(out, expansion_.walls[w], !ring);
    marks(out, group);
    return out;
  }

  static void square(SettingOutSheet::Part& out, Metres first, Metres second) {
    const measure::CornerTriangle corner = measure::corner_triangle(first, second);
    if (corner.across.value() <= 0) return;
    out.true_lines.push_back(
        fmt::format("Square a corner with {} along the length, {} along the width, {} across (3-4-5).",
                    metres(corner.along_first), metres(corner.along_second), metres(corner.across)));
  }

  static void trench(SettingOutSheet::Part& out, const works::FootingPart& footing) {
    const std::string which = capital(short_title(footing.title));
    out.rough.push_back(
        fmt::format("{}: {} long, {} wide, dug {} below the ground at the high end, {} of concrete.", which,
                    metres(footing.shape.length), millimetres(footing.shape.width),
                    millimetres(footing.shape.depth), millimetres(footing.shape.thickness)));
    for (const measure::Step& step : footing.plan.steps) {
      out.rough.push_back(fmt::format(
          "{}, step {}: the bottom drops {} at {} from the high end; the upper concrete ends at {}, "
          "a lap of {}.",
          which, step.number, millimetres(step.fall), metres(step.bottom_at), metres(step.top_at),
          millimetres(footing.plan.overlap)));
    }
    if (footing.plan.steps.empty()) return;
    std::string levels;
    for (const measure::Stretch& stretch : footing.plan.stretches) {
      if (!levels.empty()) levels += ", ";
      levels += fmt::format("{} to {} at {} mm", base::plain_number(stretch.from.value(), 3),
                            metres(stretch.to), -course_top(stretch.extra_courses));
    }
    out.rough.push_back(which + ", top of the concrete from its high end: " + levels + ".");
  }

  void wall(SettingOutSheet::Part& out, const works::WallPart& wall, bool lines) const {
    const std::string which = capital(short_title(wall.title));
    if (lines) {
      out.true_lines.push_back(fmt::format("{}: {} long, {} thick.", which, metres(wall.shape.length),
                                           millimetres(measure::thickness_of(wall.shape.bond))));
    }
    for (const works::Meeting& meeting : wall.shape.meets) {
      for (const works::WallPart& through : expansion_.walls) {
        if (through.shape.name != meeting.wall) continue;
        const measure::CornerTriangle corner =
            measure::corner_triangle(wall.shape.length, through.shape.length);
        if (corner.across.value() <= 0) continue;
        out.true_lines.push_back(fmt::format(
            "{}: its {} end stops against the {}; square it with {} along it, {} along the other, {} across "
            "(3-4-5).",
            which, meeting.end == works::WallEnd::high ? "high" : "low", through.title,
            metres(corner.along_first), metres(corner.along_second), metres(corner.across)));
      }
    }
    const auto places = [&](std::size_t i, std::size_t count, Metres width, const std::optional<Metres>& at) {
      const Metres near =
          at ? *at
             : wall.shape.length * ((static_cast<double>(i) + 1) / (static_cast<double>(count) + 1)) -
                   width / 2.0;
      return metres(near) + " to " + metres(near + width);
    };
    const std::vector<works::Opening>& openings = wall.shape.openings;
    for (std::size_t i = 0; i < openings.size(); ++i) {
      out.openings.push_back(fmt::format("{}: opening from {}, on {} courses.", which,
                                         places(i, openings.size(), openings[i].width, openings[i].at),
                                         openings[i].from_course));
    }
    const std::vector<works::Pier>& piers = wall.shape.piers;
    for (std::size_t i = 0; i < piers.size(); ++i) {
      out.openings.push_back(fmt::format("{}: pier from {}, {} proud.", which,
                                         places(i, piers.size(), piers[i].width, piers[i].at),
                                         millimetres(piers[i].projection)));
    }
    if (wall.shape.weep_spacing.value() > 0) {
      const int holes = measure::weep_holes(wall.shape.length, wall.shape.weep_spacing);
      const Metres apart = wall.shape.length / static_cast<double>(holes);
      out.openings.push_back(fmt::format("{}: {}, the first {} in, then {} apart, a course above the ground.",
                                         which, count_of(holes, "weep hole"), millimetres(apart / 2.0),
                                         millimetres(apart)));
    }
  }

  /// All runs of a part finish level, so courses are matched from the top.
  void marks(SettingOutSheet::Part& out, const works::Group& group) const {
    std::size_t most = 0;
    std::size_t at_high_end = 0;
    for (const std::size_t w : group.walls) {
      const std::size_t own = expansion_.walls[w].count.courses.size();
      const auto courses = static_cast<std::size_t>(expansion_.walls[w].shape.courses);
      most = std::max(most, own);
      at_high_end = at_high_end == 0 ? courses : std::min(at_high_end, courses);
    }
    const auto marks = measure::gauge_marks(static_cast<int>(most));
    for (std::size_t i = 0; i < most; ++i) {
      SettingOutSheet::Mark mark;
      mark.course = static_cast<int>(i) + 1;
      mark.top = static_cast<int>(std::lround(marks[i].value() * 1000)) -
                 course_top(static_cast<int>(most - at_high_end));
      for (const std::size_t w : group.walls) {
        const auto& own = expansion_.walls[w].count.courses;
        if (i + own.size() < most) continue;
        const measure::Course& course = own[i + own.size() - most];
        mark.below += course.laid_below;
        mark.seen += course.laid_facing;
      }
      out.marks.push_back(mark);
    }
  }

  const works::Job& job_;
  const works::Expansion& expansion_;
};

std::vector<std::string> cells(const SettingOutSheet::Mark& mark) {
  return {std::to_string(mark.course), fmt::format("{} mm", mark.top), halves(mark.below), halves(mark.seen)};
}
const std::vector<std::string> mark_head{"Course", "Top from the datum", "Below", "Seen"};
constexpr const char* datum =
    "Gauge marks; the datum is the top of the concrete at the high end. Bricks a course.";

}  // namespace

SettingOutSheet setting_out_sheet_of(const works::Job& job, const works::Expansion& expansion) {
  return Setter(job, expansion).tell();
}

std::string setting_out_text(const SettingOutSheet& sheet, Ink ink) {
  Page page(ink);
  page.title("Setting out", sheet.job);
  for (const SettingOutSheet::Part& part : sheet.parts) {
    page.heading(part.title);
    const auto block = [&](const char* title, const std::vector<std::string>& lines) {
      if (lines.empty()) return;
      page.text(title, 2);
      for (const std::string& words : lines)
        page.text(words, 4);
    };
    block("Rough lines, for digging", part.rough);
    block("True lines, on the hard concrete", part.true_lines);
    block("Along the walls, from the high end", part.openings);
    if (part.marks.empty()) continue;
    page.text(datum, 2);
    Table table({{mark_head[0], Table::Kind::right},
                 {mark_head[1], Table::Kind::right},
                 {mark_head[2], Table::Kind::right},
                 {mark_head[3], Table::Kind::right}});
    for (const SettingOutSheet::Mark& mark : part.marks)
      table.add(cells(mark));
    page.table(table, 4);
  }
  return page.str();
}

std::string setting_out_html(const SettingOutSheet& sheet) {
  Html parts;
  int number = 0;
  for (const SettingOutSheet::Part& part : sheet.parts) {
    Html inside;
    const auto block = [&](const char* title, const std::vector<std::string>& lines) {
      if (!lines.empty()) inside += line(element("h3", title)) + care::bullets(lines);
    };
    block("Rough lines, for digging", part.rough);
    block("True lines, on the hard concrete", part.true_lines);
    block("Along the walls, from the high end", part.openings);
    if (!part.marks.empty()) {
      Html head;
      for (const std::string& cell : mark_head)
        head += element("th", {{"scope", "col"}}, cell);
      Html rows;
      for (const SettingOutSheet::Mark& mark : part.marks) {
        Html row;
        for (const std::string& cell : cells(mark))
          row += element("td", cell);
        rows += line(element("tr", row));
      }
      inside += line(element("p", datum));
      inside += line(element("table", {{"aria-label", part.title + ": gauge marks"}},
                             line(Html()) + line(element("thead", element("tr", head))) +
                                 element("tbody", line(Html()) + rows)));
    }
    parts += care::section("part-" + std::to_string(++number), part.title, inside);
  }
  const Html head = line(Html()) + line(element("h1", "Setting out")) + line(element("p", sheet.job));
  return html::document({"Setting out: " + sheet.job,
                         line(element("header", head)) + line(element("main", line(Html()) + parts)),
                         "\ntd { text-align: right; padding: 0 .75rem; }\n",
                         {}});
}

}  // namespace weatherstruck::render
