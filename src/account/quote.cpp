#include "weatherstruck/account/quote.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "weatherstruck/account/deposit.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/spoken.h"
#include "weatherstruck/works/work_hours.h"

namespace weatherstruck::account {
namespace {

// As the hours of the book are billed: to the nearest quarter (common practice, no source).
constexpr double quarters_an_hour = 4;
constexpr std::int64_t quarter = one_unit / 4;
constexpr std::int64_t most_divided = 1'000'000;

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

/// "Cement, 23 bags"; "Flags 450 x 450, 28".
std::string bought_words(const works::TotalLine& line) {
  const std::string name = capital(line.name);
  if (line.purchase == "each") return fmt::format("{}, {}", name, std::lround(line.to_buy));
  // A symbol takes no plural, and may be bought by halves.
  if (line.purchase == line.unit)
    return fmt::format("{}, {} {}", name, base::plain_number(line.to_buy, 1), line.purchase);
  return fmt::format("{}, {}", name, works::counted(std::lround(line.to_buy), line.purchase));
}

class Maker {
 public:
  Maker(const Terms& terms, const works::Job& job, const works::TaskList& tasks, const works::Bill& bill)
      : terms_(terms), job_(job), tasks_(tasks), bill_(bill) {}

  Offer run() {
    Offer offer{empty(), false, terms_.by_the_hour, empty(), {}};
    offer.fixed = terms_.fixed_price.has_value() || !terms_.stages.empty();
    Charges materials = empty();
    costs(offer, materials);
    offer.reckoned = reckoned(offer, materials);
    offer.charges = offer.fixed ? agreed(materials) : offer.reckoned;
    return offer;
  }

 private:
  [[nodiscard]] Charges empty() const {
    return {terms_.rates.currency, {}, base::Money(0, terms_.rates.currency), {}, {}};
  }

  /// What charges_of makes of a book in which all the work is done and nothing was spent.
  [[nodiscard]] Charges when_done(Terms terms) const {
    terms.deposit = base::Money(0, terms.rates.currency);
    terms.by_the_hour = false;
    works::Progress done;
    for (const works::Task& task : tasks_.tasks) {
      works::TaskProgress state;
      state.task = task.name;
      state.finished = job_.trip.home_by;
      done.tasks.push_back(std::move(state));
    }
    return charges_of(terms, job_, tasks_, done);
  }

  static void join(Charges& to, const Charges& more) {
    to.lines.insert(to.lines.end(), more.lines.begin(), more.lines.end());
    to.questions.insert(to.questions.end(), more.questions.begin(), more.questions.end());
    to.kept_off.insert(to.kept_off.end(), more.kept_off.begin(), more.kept_off.end());
  }

  /// The price with what comes on top of it.
  [[nodiscard]] Charges agreed(const Charges& materials) const {
    Charges out = when_done(terms_);
    if (!terms_.materials) {
      out.questions.push_back({"materials-in-price", "materials",
                               "Are materials in the fixed price, or do they come on top of it?"});
    } else if (*terms_.materials == Cover::on_top) {
      join(out, materials);
    }
    return out;
  }

  [[nodiscard]] Charges reckoned(const Offer& offer, const Charges& materials) const {
    Charges out = empty();
    labour(out);
    join(out, materials);
    Terms terms = terms_;
    terms.fixed_price.reset();
    terms.stages.clear();
    // Whatever was agreed of a price: here each thing is reckoned by itself.
    terms.travel = Cover::on_top;
    const Charges rest = when_done(std::move(terms));
    join(out, rest);
    out.off = offer.fixed ? std::nullopt : rest.off;
    return out;
  }

  void labour(Charges& out) const {
    const std::vector<works::PartHours> parts = works::hours_by_part(job_, tasks_);
    if (!terms_.rates.day_work && !parts.empty()) {
      out.questions.push_back(
          {"day-work-rate", "labour", "What does an hour of yours cost? No rate for day work is kept."});
      return;
    }
    for (const works::PartHours& part : parts) {
      const auto quarters = static_cast<std::int64_t>(std::round(part.hours.value() * quarters_an_hour));
      if (quarters == 0) continue;
      const std::string what = part.of.empty() ? std::string("setting up, carrying and clearing")
                                               : "the " + works::spoken(part.of);
      out.lines.push_back({"labour/" + part.of, ChargeKind::day_work, "Labour: " + what, quarters * quarter,
                           Unit::hour, *terms_.rates.day_work, terms_.tax ? *terms_.tax : terms_.rates.tax});
    }
  }

  [[nodiscard]] const MaterialPrice* price_of(const std::string& material) const {
    const auto& prices = terms_.rates.prices;
    const auto at = std::find_if(prices.begin(), prices.end(),
                                 [&](const MaterialPrice& one) { return one.material == material; });
    return at == prices.end() ? nullptr : &*at;
  }

  void costs(Offer& offer, Charges& materials) const {
    for (const works::PartHours& part : works::hours_by_part(job_, tasks_))
      offer.hours += part.hours;
    const Tax& own = terms_.rates.materials_tax ? *terms_.rates.materials_tax : terms_.rates.tax;
    const Tax& tax = terms_.tax ? *terms_.tax : own;
    for (const works::TotalLine& line : bill_.totals) {
      if (line.on_site || line.to_buy <= 0) {
        offer.there.push_back(line.name);
        continue;
      }
      const MaterialPrice* price = price_of(line.material);
      const std::string words = bought_words(line);
      if (price == nullptr) {
        offer.unpriced.push_back(line.name);
        const trade::Material& row = trade::material(line.material);
        materials.questions.push_back(
            {"material-price", "materials/" + line.material,
             fmt::format("What is paid for {}? Say it with --price {}=AMOUNT for {}, or keep it under "
                         "\"prices\" of your rates.",
                         words, line.material, pack_words(row))});
        continue;
      }
      const auto thousandths = std::llround(line.bought * static_cast<double>(one_unit));
      const base::Money cost(scaled(price->price.minor(), thousandths, price->thousandths),
                             terms_.rates.currency);
      offer.materials.push_back({line.material, words, cost});
      const int more = terms_.rates.on_materials;
      materials.lines.push_back(
          {"materials/" + line.material, ChargeKind::materials, words, one_unit, Unit::each,
           base::Money(scaled(cost.minor(), whole_of_it + more, whole_of_it), cost.currency()), tax});
    }
  }

  /// "a bag of 25 kg", "one".
  static std::string pack_words(const trade::Material& row) {
    if (row.pack == "each") return "one";
    if (row.pack == row.unit) return fmt::format("one {}", row.unit);
    if (row.unit == "each") return fmt::format("a {} of {}", row.pack, base::plain_number(row.pack_size, 2));
    return fmt::format("a {} of {} {}", row.pack, base::plain_number(row.pack_size, 2), row.unit);
  }

  const Terms& terms_;
  const works::Job& job_;
  const works::TaskList& tasks_;
  const works::Bill& bill_;
};

}  // namespace

Offer offer_of(const Terms& terms, const works::Job& job, const works::TaskList& tasks,
               const works::Bill& bill) {
  return Maker(terms, job, tasks, bill).run();
}

ForHimself for_himself(const Terms& terms, const Offer& offer) {
  const base::Money nought(0, terms.rates.currency);
  ForHimself mine{offer.hours, nought, nought, nought, nought, nought};
  base::Money sold = nought;
  for (const Charge& line : offer.reckoned.lines) {
    base::Money& part = line.kind == ChargeKind::materials ? sold
                        : line.kind == ChargeKind::travel  ? mine.travel
                                                           : mine.labour;
    part = part + net_of(line);
    mine.reckoned = mine.reckoned + net_of(line);
  }
  for (const MaterialCost& material : offer.materials)
    mine.materials = mine.materials + material.cost;
  mine.put_on = sold - mine.materials;
  mine.agreed = agreed_price(terms);
  const auto thousandths = std::llround(offer.hours.value() * static_cast<double>(one_unit));
  if (!mine.agreed || thousandths <= 0) return mine;
  base::Money left = *mine.agreed;
  if (terms.materials == Cover::in_the_price) left = left - mine.materials;
  if (terms.travel == Cover::in_the_price) left = left - mine.travel;
  // Ratios are taken of at most a thousand hours, which is where `scaled` ends; more is rounded to the hour.
  const bool many = thousandths > most_divided;
  mine.an_hour =
      base::Money(scaled(left.minor(), many ? 1 : one_unit, many ? thousandths / one_unit : thousandths),
                  left.currency());
  return mine;
}

}  // namespace weatherstruck::account
