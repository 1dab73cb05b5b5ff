#include <fmt/format.h>

#include <cmath>
#include <set>
#include <stdexcept>

#include "weatherstruck/account/charges.h"
#include "weatherstruck/account/rounding.h"

namespace weatherstruck::account {

namespace {

constexpr std::int64_t most_hours = 10'000'000;         // 10000 h
constexpr std::int64_t longest_distance = 100'000'000;  // 100000 miles or km
constexpr int most_trips = 100;

class Check {
 public:
  Check(const Terms& terms, const std::string& place) : terms_(terms), place_(place) {
    faults_ = faults_of(terms.rates, place + "/rates");
  }

  base::Faults run() {
    if (terms_.fixed_price) amount(*terms_.fixed_price, 1, "/fixed-price");
    if (terms_.deposit) amount(*terms_.deposit, 0, "/deposit");
    stages();
    if (terms_.tax) tax(*terms_.tax, "/tax");
    if (terms_.off) off(*terms_.off, nullptr, "/off");
    if (terms_.by_the_hour && (terms_.fixed_price || !terms_.stages.empty())) {
      add("price-and-hours", "/by-the-hour", "a price and all hours",
          "a fixed price, or the hours of the book",
          "Choose one; name hours that come on top of a price as day work.");
    }
    for (std::size_t i = 0; i < terms_.day_work.size(); ++i) {
      const DayWork& work = terms_.day_work[i];
      const std::string at = fmt::format("/day-work/{}", i);
      if (work.what.empty())
        add("out-of-range", at + "/what", "no words", "what was done", "Say what it was.");
      span(work.thousandths, 1, most_hours, at + "/hours", "thousandths of an hour");
    }
    if (terms_.distance) span(*terms_.distance, 0, longest_distance, "/distance", "thousandths");
    span(terms_.trips, 0, most_trips, "/trips", "trips");
    return std::move(faults_);
  }

 private:
  void add(std::string code, const std::string& where, std::string found, std::string allowed,
           std::string remedy) {
    faults_.push_back(
        {std::move(code), place_ + where, std::move(found), std::move(allowed), std::move(remedy)});
  }

  /// Whether it is of the rates' currency.
  bool amount(const base::Money& money, std::int64_t least, const std::string& where) {
    const bool same = money.currency() == terms_.rates.currency;
    if (!same) {
      add("wrong-currency", where, money.text(), "an amount in " + terms_.rates.currency.code(),
          "Give it in the currency of the rates.");
    }
    if (money.minor() < least) {
      add("out-of-range", where, money.text(), least > 0 ? "more than nought" : "nought or more",
          "Give the amount agreed.");
    }
    return same;
  }

  void span(std::int64_t value, std::int64_t low, std::int64_t high, const std::string& where,
            const std::string& unit) {
    if (value >= low && value <= high) return;
    add("out-of-range", where, fmt::format("{} {}", value, unit), fmt::format("{} to {} {}", low, high, unit),
        "Choose a number between.");
  }

  void tax(const Tax& tax, const std::string& where) {
    for (base::Fault& fault : faults_of(tax, place_ + where))
      faults_.push_back(std::move(fault));
  }

  /// @param price what it is taken from; nullptr: the sum of each bill
  void off(const Off& off, const base::Money* price, const std::string& where) {
    if (off.reason.empty()) {
      add("missing-reason", where + "/reason", "no reason", "why it is taken off, as the bill prints it",
          "Write it, for example \"Agreed discount\".");
    }
    if ((off.percent != 0) == off.amount.has_value()) {
      add("one-of-two", where, off.amount ? "a share and an amount" : "neither a share nor an amount",
          "a share of the sum, or an amount", "Give one of the two.");
      return;
    }
    if (!off.amount) {
      span(off.percent, 1, whole_of_it, where + "/percent", "hundredths of a percent");
    } else if (amount(*off.amount, 1, where + "/amount") && price != nullptr &&
               price->currency() == off.amount->currency() && off.amount->minor() > price->minor()) {
      add("out-of-range", where + "/amount", off.amount->text(), "no more than the price, " + price->text(),
          "Take off less.");
    }
  }

  void stages() {
    std::set<std::string> titles;
    base::Money sum(0, terms_.rates.currency);
    bool summable = true;
    for (std::size_t i = 0; i < terms_.stages.size(); ++i) {
      const Stage& stage = terms_.stages[i];
      const std::string at = fmt::format("/stages/{}", i);
      if (stage.title.empty()) {
        add("out-of-range", at + "/title", "no words", "what the stage is called", "Name it.");
      } else if (!titles.insert(stage.title).second) {
        add("same-title", at + "/title", stage.title, "a title that no other stage has",
            "Name the stages apart.");
      }
      if (stage.tasks.empty()) {
        add("no-tasks", at + "/tasks", "none", "the tasks or parts that it ends with",
            "Name at least one; the stage is billed when they are done.");
      }
      if (stage.tax) tax(*stage.tax, at + "/tax");
      if (stage.off) off(*stage.off, &stage.price, at + "/off");
      if (amount(stage.price, 1, at + "/price")) {
        sum = sum + stage.price;
      } else {
        summable = false;
      }
    }
    if (!terms_.fixed_price || terms_.stages.empty() || !summable ||
        !(terms_.fixed_price->currency() == terms_.rates.currency))
      return;
    if (!(sum == *terms_.fixed_price)) {
      add("stages-differ", "/stages", sum.text() + " together",
          terms_.fixed_price->text() + ", the fixed price", "Change a stage or the price.");
    }
  }

  const Terms& terms_;
  const std::string& place_;
  base::Faults faults_;
};

}  // namespace

Tax tax_of(const works::PriceTax& said) {
  for (const TaxCategory category : {TaxCategory::standard, TaxCategory::zero, TaxCategory::exempt,
                                     TaxCategory::reverse_charge, TaxCategory::not_subject}) {
    if (said.category == code_of(category)) return {category, said.rate, said.name, said.reason};
  }
  throw std::invalid_argument("no such tax category: " + said.category);
}

Terms terms_of(const Rates& rates, const std::optional<works::Price>& price) {
  Terms terms{rates};
  if (!price) return terms;
  const auto cover = [](const std::optional<bool>& on_top) -> std::optional<Cover> {
    if (!on_top) return {};
    return *on_top ? Cover::on_top : Cover::in_the_price;
  };
  const auto off = [](const std::optional<works::PriceOff>& said) -> std::optional<Off> {
    if (!said) return {};
    return Off{said->percent, said->amount, said->reason};
  };
  const auto tax = [](const std::optional<works::PriceTax>& said) -> std::optional<Tax> {
    if (!said) return {};
    return tax_of(*said);
  };
  terms.fixed_price = price->fixed;
  for (const works::PriceStage& stage : price->stages)
    terms.stages.push_back({stage.title, stage.price, stage.of, off(stage.off), tax(stage.tax)});
  terms.tax = tax(price->tax);
  terms.off = off(price->off);
  terms.by_the_hour = price->by_the_hour;
  terms.materials = cover(price->materials_on_top);
  terms.travel = cover(price->travel_on_top);
  if (price->distance) terms.distance = std::llround(*price->distance * static_cast<double>(one_unit));
  terms.deposit = price->deposit;
  return terms;
}

base::Faults faults_of(const Terms& terms, const std::string& place) {
  return Check(terms, place).run();
}

}  // namespace weatherstruck::account
