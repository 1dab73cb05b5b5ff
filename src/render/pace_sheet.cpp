#include "weatherstruck/render/pace_sheet.h"

#include <fmt/format.h>

#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/operations.h"

namespace weatherstruck::render {
namespace {

/// To two figures, or whole: hours are logged to some minutes.
std::string figure(double value) {
  return value >= 10 ? base::plain_number(value, 0) : base::plain_number(value, value >= 1 ? 1 : 2);
}

/// "41 bricks an hour", or the other way about where less than one is done in an hour.
std::string rate(double an_hour, const trade::OperationRow& row) {
  if (an_hour < 1) return fmt::format("{} h a {}", figure(1 / an_hour), row.unit_one);
  return fmt::format("{} {} an hour", figure(an_hour), row.unit);
}

std::string line(const works::LearntPace& one) {
  const trade::OperationRow& row = trade::row_for(one.operation);
  const works::PaceFigures figures = works::pace_figures(one);
  if (one.entries == 0) return fmt::format("the norm, {}", rate(figures.norm, row));
  const bool turned = figures.own < 1;
  const double low = turned ? 1 / figures.high : figures.low;
  const double high = turned ? 1 / figures.low : figures.high;
  // Told all one way about, whatever the ends come to.
  const auto told = [&](double an_hour) {
    return turned ? fmt::format("{} h a {}", figure(1 / an_hour), row.unit_one)
                  : fmt::format("{} {} an hour", figure(an_hour), row.unit);
  };
  return fmt::format("{}, from {} of {}; norm {}; the next {} to {}", told(figures.own),
                     count_of(one.entries, "task"), count_of(one.jobs, "job"),
                     figure(turned ? 1 / figures.norm : figures.norm), figure(low), figure(high));
}

}  // namespace

std::string pace_sheet(std::span<const works::LearntPace> learnt, Ink ink) {
  Page page(ink);
  page.title("Own pace", "by the site book");
  if (learnt.empty()) {
    page.gap();
    page.text(
        "Nothing is known yet, so plans go by the norms. It is learnt from tasks of which the book has "
        "beginning, end and amount, on jobs that one person did alone.");
    return page.str();
  }
  page.gap();
  constexpr std::size_t at = 26;
  for (const works::LearntPace& one : learnt) {
    page.item(std::string(trade::row_for(one.operation).title), line(one), at);
    if (one.slips > 0) {
      page.text(fmt::format("{} left out: under half the quickest that was seen or over twice the slowest.",
                            count_of(one.slips, "task")),
                at);
    }
  }
  page.gap();
  page.text(
      "Plans of jobs begun later go by it, as does their chance. \"The next\" holds eight in ten of the "
      "tasks to come. Hours are as they were logged, slow weather and poor light among them.");
  return page.str();
}

}  // namespace weatherstruck::render
