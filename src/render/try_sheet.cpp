#include "weatherstruck/render/try_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "weatherstruck/account/tax.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/outlook_words.h"
#include "weatherstruck/render/quantities_sheet.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/works/said.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::render {
namespace {

constexpr std::size_t label = 12;
constexpr double no_less = 1e-6;
constexpr double worth_telling = 0.03;  ///< of what is there: less to spare or more is no news

int points(double share) {
  return static_cast<int>(std::lround(share * 100));
}

std::string with_sign(double difference, const std::string& text) {
  return (difference < 0 ? "-" : "+") + text;
}

struct Mixes {
  int mixes = 0;
  double bags = 0;
};
Mixes mixes_of(const works::Bill& bill, bool concrete) {
  Mixes out;
  for (const works::Batch& batch : bill.batches) {
    if (batch.concrete != concrete) continue;
    out.mixes += batch.mixes;
    out.bags += batch.cement_bags;
  }
  return out;
}

const works::TotalLine* line_of(const works::Bill& bill, const std::string& material) {
  for (const works::TotalLine& line : bill.totals) {
    if (line.material == material) return &line;
  }
  return nullptr;
}

class Sheet {
 public:
  Sheet(const TryFacts& facts, Ink ink) : f_(facts), page_(ink) {}

  std::string str() {
    page_.title("Tried", f_.before.job.title);
    for (const std::string& said : f_.said)
      page_.text(said, 2);
    page_.gap();
    beside();
    page_.gap();
    home();
    stock();
    money();
    advice();
    page_.gap();
    what_now();
    return page_.str();
  }

 private:
  // ---------------------------------------------------------------------------------------------- the table

  void beside() {
    Table table({{"", Table::Kind::left},
                 {"as it is", Table::Kind::right},
                 {"as tried", Table::Kind::right},
                 {"difference", Table::Kind::right}});
    for (const works::MaterialChange& one : f_.materials) {
      const works::TotalLine* was = line_of(f_.before.bill, one.material);
      const works::TotalLine* is = line_of(f_.after.bill, one.material);
      const auto shown = [](const works::TotalLine* line) {
        return line == nullptr ? 0.0 : line->laid > 0 ? line->laid : line->total;
      };
      const bool brick = one.unit == "bricks";
      if (!brick && std::abs(shown(is) - shown(was)) < no_less) continue;
      // Cement, sand and aggregate are spoken of in mixes and bags.
      if (one.material == "cement" || one.unit == "m3") continue;
      row(table, capital(one.name), shown(was), shown(is), one.unit);
    }
    for (const bool concrete : {true, false}) {
      const Mixes was = mixes_of(f_.before.bill, concrete);
      const Mixes is = mixes_of(f_.after.bill, concrete);
      row(table, concrete ? "Concrete, mixes" : "Mortar, mixes", was.mixes, is.mixes, "");
    }
    const auto bags = [](const works::Bill& bill) {
      return std::ceil(mixes_of(bill, true).bags + mixes_of(bill, false).bags - no_less);
    };
    row(table, "Cement, bags", bags(f_.before.bill), bags(f_.after.bill), "");
    for (const works::MaterialChange& one : f_.materials) {
      const bool bulk = one.unit == "m3" && one.material != "sharp-sand" && one.material != "building-sand" &&
                        one.material != "coarse-aggregate" && one.material != "ballast";
      if (bulk && std::abs(one.after.needed - one.before.needed) > no_less)
        row(table, capital(one.name), one.before.needed, one.after.needed, one.unit);
    }
    row(table, "Soil away", f_.before.bill.soil_away.value(), f_.after.bill.soil_away.value(), "m3");
    hours(table, "Work, hours", f_.before.work, f_.after.work);
    if (f_.begun) hours(table, "still to do", f_.before.left, f_.after.left);
    page_.table(table, 0);
  }

  // Apart by what is shown, so that the row adds up.
  // Apart by what is shown, so that the row adds up.
  static void row(Table& table, const std::string& name, double was, double is, const std::string& unit) {
    const double step = unit == "m3" ? 100 : unit == "m2" || unit == "m" ? 10 : 1;
    was = std::round(was * step) / step;
    is = std::round(is * step) / step;
    const bool same = std::abs(is - was) < no_less;
    const auto text = [&](double value) { return value == 0 ? std::string("none") : amount(value, unit); };
    table.add(
        {name, text(was), text(is), same ? "same" : with_sign(is - was, amount(std::abs(is - was), unit))});
  }
  static void hours(Table& table, const std::string& name, base::Hours was, base::Hours is) {
    const auto tenths = [](base::Hours h) { return std::round(h.value() * 10) / 10; };
    const double apart = tenths(is) - tenths(was);
    const auto text = [](double h) { return fmt::format("{:.1f}", h); };
    table.add({name, text(tenths(was)), text(tenths(is)),
               std::abs(apart) < no_less ? "same" : with_sign(apart, text(std::abs(apart)))});
  }

  // --------------------------------------------------------------------------------------------------- home

  [[nodiscard]] std::string home_words(const TrySide& side) const {
    const programme::Plan& plan = side.result.plan;
    if (!plan.home) return "no way found to be home";
    const bool late = plan.in_hand.count() < 0;
    std::string text =
        fmt::format("{}, {} {}", base::day_and_time(side.job.trip.home_zone.to_local(*plan.home)),
                    duration(late ? -plan.in_hand : plan.in_hand), late ? "late" : "in hand");
    return text + left_out(side);
  }

  // ", without the path and 2 tasks of the bed".
  static std::string left_out(const TrySide& side) {
    const auto& names = side.result.plan.left_out;
    std::vector<std::string> pieces;
    std::vector<works::Name> told;
    long musts = 0;
    for (const works::Name& name : names) {
      const works::Task* task = side.list.find(name);
      if (task == nullptr) continue;
      musts += task->importance == works::Importance::must ? 1 : 0;
      if (std::find(told.begin(), told.end(), task->of) != told.end()) continue;
      told.push_back(task->of);
      if (task->of.empty()) {
        pieces.push_back("\"" + works::short_title(*task) + "\"");
        continue;
      }
      const auto of_part = [&](const works::Name& other) {
        const works::Task* one = side.list.find(other);
        return one != nullptr && one->of == task->of;
      };
      const auto left = std::count_if(names.begin(), names.end(), of_part);
      const bool all = std::all_of(side.result.plan.tasks.begin(), side.result.plan.tasks.end(),
                                   [&](const programme::PlannedTask& one) {
                                     return !of_part(one.task) || !one.present || !one.placed();
                                   });
      const std::string part = "the " + works::spoken(task->of);
      pieces.push_back(all ? part : count_of(static_cast<long>(left), "task") + " of " + part);
    }
    if (pieces.empty()) return {};
    std::string text = ", without " + base::join_and(pieces);
    if (musts > 0) text += fmt::format(" ({} that must be done)", count_of(musts, "task"));
    return text;
  }

  void home() {
    const base::Zone& zone = f_.before.job.trip.home_zone;
    page_.item("Home", fmt::format("as it is {}", home_words(f_.before)), label);
    page_.item("", fmt::format("as tried {}", home_words(f_.after)), label);
    const auto promised = base::day_and_time(zone.to_local(f_.after.job.trip.home_by));
    page_.item("",
               f_.after.keeps_promise() ? "Home by the promise (" + promised + ")."
                                        : "Not home by the promise (" + promised + ").",
               label);
    if (!f_.after.result.objections.empty())
      page_.item("",
                 "The plan as tried fails its own check: " + f_.after.result.objections.front().text + ".",
                 label);
    if (!f_.before.result.outlook || !f_.after.result.outlook) return;
    const programme::Outlook& was = *f_.before.result.outlook;
    const programme::Outlook& is = *f_.after.result.outlook;
    const int error = std::max(1, points(f_.beside.error));
    const int gain = points(f_.beside.gain);
    std::string text =
        fmt::format("as it is {}; as tried {}", likely_words(was.chance()), likely_words(is.chance()));
    if (f_.beside.shows()) {
      text +=
          fmt::format(": {} points {}, give or take {}", std::abs(gain), gain > 0 ? "more" : "less", error);
    } else {
      text += fmt::format(": no difference that {} weathers show ({:+d} points, give or take {})",
                          is.weathers, gain, error);
    }
    page_.item("Chance", text + ".", label);
  }

  // -------------------------------------------------------------------------------------------------- stock

  static std::string named(const works::MaterialChange& one, double value) {
    const std::string text = amount(value, one.unit);
    return text + " " + one.name;
  }

  void stock() {
    std::vector<std::string> get;
    std::vector<std::string> spare;
    std::vector<std::string> less;
    for (const works::MaterialChange& one : f_.materials) {
      if (one.there) {
        const double more = one.after.short_by - one.before.short_by;
        if (one.after.short_by > no_less && std::abs(more) > no_less)
          get.push_back(fmt::format("{} {} ({} short of {})", purchase(one.after.packs, one.pack), one.name,
                                    amount(one.after.short_by, one.unit), amount(*one.there, one.unit)));
        const double over = one.after.spare - one.before.spare;
        if (std::abs(over) > worth_telling * *one.there && one.after.spare > no_less)
          spare.push_back(fmt::format("{} ({} as it is)", named(one, one.after.spare),
                                      amount(one.before.spare, one.unit)));
        continue;
      }
      const double packs = one.after.packs - one.before.packs;
      if (std::abs(packs) < no_less) continue;
      (packs > 0 ? get : less).push_back(purchase(std::abs(packs), one.pack) + " " + one.name);
    }
    page_.gap();
    if (!get.empty()) page_.item(f_.begun ? "Buy" : "Get more", base::join_and(get) + ".", label);
    if (!less.empty())
      page_.item(f_.begun ? "Left over" : "Get less",
                 base::join_and(less) + (f_.begun ? ", if they were brought." : "."), label);
    if (!spare.empty()) page_.item("To spare", base::join_and(spare) + ".", label);
    if (get.empty() && less.empty() && spare.empty())
      page_.item("Stock", "nothing more to get and nothing left over.", label);
  }

  // -------------------------------------------------------------------------------------------------- money

  void money() {
    const account::ChangePrice& price = f_.price;
    page_.gap();
    std::vector<std::string> lines;
    if (price.agreed)
      lines.push_back(
          fmt::format("the price agreed, {}, stays until you agree another.", price.agreed->text()));
    if (price.an_hour && price.apart) {
      const std::int64_t minor = price.apart->minor();
      const base::Money amount_of(std::abs(minor), price.apart->currency());
      if (price.by_the_hour) {
        lines.push_back(fmt::format("by the hour, at {}: {} as it is, {} as tried.", price.an_hour->text(),
                                    price.before->text(), price.after->text()));
      } else if (minor != 0) {
        lines.push_back(fmt::format("the hours apart, at {} an hour, come to {} {}.", price.an_hour->text(),
                                    amount_of.text(), minor > 0 ? "more" : "less"));
      }
    } else {
      lines.emplace_back("what you charge by the hour is not kept; \"weatherstruck me\" asks for it.");
    }
    if (price.taken_off) {
      // What is left out altogether stands in the changed job no more.
      std::vector<std::string> used;
      for (const works::Fallback& fallback : f_.after.job.fallbacks) {
        if (std::find(f_.changed.begin(), f_.changed.end(), fallback.part) != f_.changed.end())
          used.push_back("--used " + fallback.part);
      }
      lines.push_back(fmt::format("{} comes off the bill, as agreed for this fallback{}.",
                                  price.taken_off->text(),
                                  used.empty() ? std::string() : " (invoice " + base::join_and(used) + ")"));
    }
    std::string materials = "no prices of materials are kept: ask for those above";
    if (price.on_materials && *price.on_materials > 0)
      materials += fmt::format(", and put {} on", account::percent_text(*price.on_materials));
    lines.push_back(materials + ".");
    for (std::size_t i = 0; i < lines.size(); ++i)
      page_.item(i == 0 ? "Money" : "", capital(lines[i]), label);
    page_.item("", "All before tax.", label);
  }

  void advice() {
    if (f_.advice.empty()) return;
    page_.gap();
    for (std::size_t i = 0; i < f_.advice.size(); ++i)
      page_.item(i == 0 ? "Mind" : "", base::to_text(f_.advice[i]), label);
  }

  void what_now() {
    if (f_.name.empty()) {
      page_.text("Nothing is kept: this job is a file. \"weatherstruck job add FILE\" keeps it.");
    } else if (f_.stands) {
      page_.text(
          fmt::format("Nothing is changed yet. \"weatherstruck try {} keep\" changes the job, \"try {} "
                      "drop\" forgets it.",
                      f_.name, f_.name));
    }
    page_.text(
        "Hours are those of the norms at your pace, in fair weather. Both were planned anew and followed "
        "through the same weathers; the search for a plan itself may move home by an hour or so.");
  }

  const TryFacts& f_;
  Page page_;
};

}  // namespace

bool TrySide::keeps_promise() const {
  return result.plan.home && result.plan.in_hand.count() >= 0 && result.objections.empty() &&
         result.plan.all_musts_placed(list);
}

std::string try_sheet(const TryFacts& facts, Ink ink) {
  return Sheet(facts, ink).str();
}

}  // namespace weatherstruck::render
