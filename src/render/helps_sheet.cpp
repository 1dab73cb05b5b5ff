#include "weatherstruck/render/helps_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/late_words.h"
#include "weatherstruck/render/outlook_words.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::render {
namespace {

using programme::Help;

constexpr std::size_t label_width = 13;

std::string plan_words(const TripFacts& facts, const Help& help) {
  if (!help.home) return "no way found to be home";
  const bool late = help.in_hand.count() < 0;
  std::string text =
      fmt::format("home about {}, {} {}", base::day_and_time(facts.job.trip.home_zone.to_local(*help.home)),
                  duration(late ? -help.in_hand : help.in_hand), late ? "late" : "in hand");
  if (help.left_out > 0)
    text += fmt::format(", {} left out",
                        help.left_out == 1 ? "one task" : fmt::format("{} tasks", help.left_out));
  return text;
}

int points(double share) {
  return static_cast<int>(std::lround(share * 100));
}

}  // namespace

std::string helps_sheet(const TripFacts& facts, const programme::Helps& helps, Ink ink) {
  Page page(ink);
  page.title("What would help", facts.job.title);
  page.gap();
  page.item("As it is",
            fmt::format("{}; {}.", plan_words(facts, helps.as_it_is),
                        likely_words(helps.as_it_is.outlook.chance())),
            label_width);
  std::vector<std::string> no_difference;
  bool first = true;
  for (const Help& help : helps.helps) {
    const std::string change = change_words(facts, {help.kind, help.part, {}});
    if (!help.shows()) {
      no_difference.push_back(change);
      continue;
    }
    page.gap();
    page.item(first ? "Helps" : "", capital(change) + ": " + plan_words(facts, help) + ".", label_width);
    page.item(
        "",
        fmt::format("{}: {} points more, give or take {}.", capital(likely_words(help.outlook.chance())),
                    points(help.gain), std::max(1, points(help.error))),
        label_width);
    first = false;
  }
  page.gap();
  if (!no_difference.empty()) {
    page.item("No difference",
              fmt::format("that {} weathers show: {}.", helps.as_it_is.outlook.weathers,
                          base::join_and(no_difference)),
              label_width + 2);
    page.gap();
  }
  page.text(
      "Each was planned by itself and followed through the same weathers that may come of this forecast. The "
      "chance is that of being home by the promise with nothing to make good; of two changes together it "
      "says "
      "nothing.");
  return page.str();
}

}  // namespace weatherstruck::render
