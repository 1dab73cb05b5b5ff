#include "weatherstruck/account/charges.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "ledger.h"
#include "weatherstruck/account/rounding.h"
#include "weatherstruck/base/text.h"

namespace weatherstruck::account {

namespace {

// Hours of the book are billed to the nearest quarter (common practice, no source): when work began and ended
// is not known better.
constexpr double quarters_an_hour = 4;
constexpr std::int64_t quarter = one_unit / 4;

// What was said in the book, as the beginning of a line on a bill.
std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

std::string join_key(std::string_view kind, std::string_view rest) {
  return fmt::format("{}/{}", kind, rest);
}

class Maker {
 public:
  Maker(const Terms& terms, const works::Job& job, const works::TaskList& tasks,
        const works::Progress& progress, const BilledBefore& before)
      : terms_(terms),
        job_(job),
        tasks_(tasks),
        progress_(progress),
        before_(before),
        ledger_(terms.rates.currency, before) {}

  Charges run() {
    price();
    stages();
    extras();
    said_hours();
    booked_hours();
    materials();
    travel();
    fallbacks();
    deposit();
    off();
    return ledger_.take();
  }

 private:
  [[nodiscard]] bool has_price() const { return terms_.fixed_price.has_value() || !terms_.stages.empty(); }
  [[nodiscard]] base::Money amount(std::int64_t minor) const { return {minor, terms_.rates.currency}; }

  /// The tasks that a name stands for, optional ones left out; none where nothing bears it.
  [[nodiscard]] std::vector<const works::Task*> work_of(const works::Name& name) const {
    std::vector<const works::Task*> found;
    for (const works::Task& task : tasks_.tasks) {
      const bool named = task.name == name;
      if (named || (!task.only_if && (task.part == name || task.of == name))) found.push_back(&task);
    }
    return found;
  }

  [[nodiscard]] bool finished(const works::Task& task) const {
    const works::TaskProgress* state = progress_.find(task.name);
    return state != nullptr && state->finished.has_value();
  }

  [[nodiscard]] std::vector<std::string> unfinished(const std::vector<const works::Task*>& tasks) const {
    std::vector<std::string> titles;
    for (const works::Task* task : tasks) {
      if (!finished(*task)) titles.push_back(task->title);
    }
    return titles;
  }

  /// At most three of them, and how many more.
  static std::string some_of(std::vector<std::string> titles) {
    constexpr std::size_t most = 3;
    if (titles.size() > most) {
      const std::size_t more = titles.size() - most;
      titles.resize(most);
      titles.push_back(fmt::format("{} more", more));
    }
    return base::join_and(titles);
  }

  [[nodiscard]] bool left_out(const works::Task& task) const {
    const auto& used = terms_.fallbacks_used;
    return std::any_of(job_.fallbacks.begin(), job_.fallbacks.end(), [&](const works::Fallback& fallback) {
      return fallback.kind == works::Fallback::Kind::drop &&
             (fallback.part == task.part || fallback.part == task.of) &&
             std::find(used.begin(), used.end(), fallback.part) != used.end();
    });
  }

  /// The tax of the job, or what the rates say for its kind.
  [[nodiscard]] const Tax& tax_on(ChargeKind kind) const {
    if (terms_.tax) return *terms_.tax;
    const std::optional<Tax>& on_materials = terms_.rates.materials_tax;
    return kind == ChargeKind::materials && on_materials ? *on_materials : terms_.rates.tax;
  }

  void charge(std::string key, ChargeKind kind, std::string text, std::int64_t quantity, Unit unit,
              const base::Money& price, Ledger::Grows grows = Ledger::Grows::no) {
    ledger_.charge({std::move(key), kind, std::move(text), quantity, unit, price, tax_on(kind)}, grows);
  }

  void stage_line(const std::string& key, const Stage& stage) {
    Charge made{key,
                ChargeKind::stage,
                stage.title,
                one_unit,
                Unit::each,
                stage.price,
                stage.tax ? *stage.tax : tax_on(ChargeKind::stage)};
    if (stage.off) {
      const base::Money off =
          stage.off->amount.value_or(amount(scaled(stage.price.minor(), stage.off->percent, whole_of_it)));
      // A share of a small price may come to nothing.
      if (off.minor() > 0) made.discount = Discount{off, stage.off->reason};
    }
    ledger_.charge(std::move(made));
  }

  void price() {
    if (!terms_.fixed_price || !terms_.stages.empty()) return;
    std::vector<const works::Task*> due;
    for (const works::Task& task : tasks_.tasks) {
      if (!task.only_if && task.outdoors && !left_out(task)) due.push_back(&task);
    }
    const std::vector<std::string> open = unfinished(due);
    if (!open.empty()) {
      ledger_.ask("unfinished", "price",
                  fmt::format("Is the work finished? By the site book {} {} not. The price is billed whole.",
                              some_of(open), open.size() == 1 ? "is" : "are"));
    }
    charge("price", ChargeKind::price, job_.title, one_unit, Unit::each, *terms_.fixed_price);
  }

  void stages() {
    for (const Stage& stage : terms_.stages) {
      const std::string key = ledger_.own_key(join_key("stage", stage.title));
      std::vector<const works::Task*> work;
      bool known = true;
      for (const works::Name& name : stage.tasks) {
        const std::vector<const works::Task*> named = work_of(name);
        work.insert(work.end(), named.begin(), named.end());
        if (!named.empty()) continue;
        known = false;
        ledger_.ask(
            "unknown-task", key,
            fmt::format("Stage \"{}\" ends with \"{}\", and the job has neither task nor part of that name. "
                        "Which is meant?",
                        stage.title, name));
      }
      if (!known) continue;
      work.erase(
          std::remove_if(work.begin(), work.end(), [&](const works::Task* task) { return left_out(*task); }),
          work.end());
      const std::vector<std::string> open = unfinished(work);
      if (open.empty()) {
        stage_line(key, stage);
      } else {
        ledger_.keep_off(key, stage.title, "not done by the site book: " + some_of(open));
      }
    }
  }

  /// The hours said for it, each said once.
  std::optional<std::int64_t> take_hours(const std::string& what) {
    for (std::size_t i = 0; i < terms_.day_work.size(); ++i) {
      if (terms_.day_work[i].what != what ||
          std::find(hours_taken_.begin(), hours_taken_.end(), i) != hours_taken_.end())
        continue;
      hours_taken_.push_back(i);
      return terms_.day_work[i].thousandths;
    }
    return {};
  }

  void extras() {
    for (const auto& [at, extra] : progress_.extras) {
      const std::string key = ledger_.own_key(join_key("extra", base::iso_utc(at) + "/" + extra.what));
      // Taken whatever else is open, lest the hours come up again as day work of their own.
      const std::optional<std::int64_t> hours = extra.price ? std::nullopt : take_hours(extra.what);
      if (extra.agreed_by.empty()) {
        ledger_.ask("agreed-by", key, fmt::format("Who agreed to the extra \"{}\"?", extra.what));
        continue;
      }
      const std::string text = fmt::format("{} (extra, agreed with {} on {})", capital(extra.what),
                                           extra.agreed_by, base::day_name(job_.site.zone.day_of(at)));
      if (extra.price) {
        if (in_currency(*extra.price, key, extra.what))
          charge(key, ChargeKind::extra, text, one_unit, Unit::each, *extra.price);
      } else if (!hours) {
        ledger_.ask("hours", key,
                    fmt::format("How many hours went into the extra \"{}\"? It was agreed without a price.",
                                extra.what));
      } else if (has_rate(key, extra.what)) {
        charge(key, ChargeKind::extra, text, *hours, Unit::hour, *terms_.rates.day_work);
      }
    }
  }

  void said_hours() {
    for (std::size_t i = 0; i < terms_.day_work.size(); ++i) {
      if (std::find(hours_taken_.begin(), hours_taken_.end(), i) != hours_taken_.end()) continue;
      const DayWork& work = terms_.day_work[i];
      const std::string key = ledger_.own_key(join_key("day-work", work.what));
      if (has_rate(key, work.what)) {
        charge(key, ChargeKind::day_work, capital(work.what) + ", day work", work.thousandths, Unit::hour,
               *terms_.rates.day_work);
      }
    }
  }

  void booked_hours() {
    if (!terms_.by_the_hour) return;
    for (const works::TaskProgress& state : progress_.tasks) {
      if (state.runs.empty()) continue;
      const std::string key = ledger_.own_key(join_key("hours", state.task));
      const works::Task* task = tasks_.find(state.task);
      const std::string title = task != nullptr ? task->title : state.task;
      if (state.runs.back().open) {
        ledger_.ask("still-at-it", key,
                    fmt::format("Are you still at \"{}\"? Log what is done, and it is billed.", title));
        continue;
      }
      const double quarters = std::round(state.worked.value() * quarters_an_hour);
      if (!has_rate(key, title)) continue;
      charge(key, ChargeKind::day_work, title, quarter * static_cast<std::int64_t>(quarters), Unit::hour,
             *terms_.rates.day_work, Ledger::Grows::yes);
    }
  }

  /// nullopt where it has been asked about.
  std::optional<Cover> settle(const std::optional<Cover>& said, const std::string& about,
                              const std::string& question) {
    if (said) return said;
    if (!has_price()) return Cover::on_top;
    ledger_.ask(about + "-in-price", about, question);
    return {};
  }

  void materials() {
    if (progress_.expenses.empty()) return;
    const std::optional<Cover> cover =
        settle(terms_.materials, "materials",
               "Are materials in the fixed price, or do they come on top of it? None is billed until then.");
    for (const auto& [at, expense] : progress_.expenses) {
      const std::string key = ledger_.own_key(join_key("materials", base::iso_utc(at) + "/" + expense.what));
      if (!cover) continue;
      if (*cover == Cover::in_the_price) {
        ledger_.keep_off(key, capital(expense.what), "in the fixed price");
      } else if (!expense.receipt || expense.receipt->empty()) {
        ledger_.ask("receipt", key,
                    fmt::format("Is there a receipt for \"{}\" ({})? Without one it is not billed.",
                                expense.what, expense.money.text()));
      } else if (in_currency(expense.money, key, expense.what)) {
        const int more = terms_.rates.on_materials;
        const std::string text =
            fmt::format("{} (receipt {}), at cost{}", capital(expense.what), *expense.receipt,
                        more > 0 ? " and " + percent_text(more) : std::string());
        charge(key, ChargeKind::materials, text, one_unit, Unit::each,
               amount(scaled(expense.money.minor(), whole_of_it + more, whole_of_it)));
      }
    }
  }

  void travel() {
    const Travel& travel = terms_.rates.travel;
    if (std::holds_alternative<std::monostate>(travel)) return;
    const std::optional<Cover> cover =
        settle(terms_.travel, "travel", "Is travel in the fixed price, or does it come on top of it?");
    if (!cover) return;
    if (*cover == Cover::in_the_price) {
      ledger_.keep_off("travel", "Travel", "in the fixed price");
    } else if (const auto* by_trip = std::get_if<TravelByTrip>(&travel)) {
      charge("travel", ChargeKind::travel, "Travel, out and back", terms_.trips * one_unit, Unit::each,
             by_trip->for_the_trip, Ledger::Grows::yes);
    } else if (const auto* by_distance = std::get_if<TravelByDistance>(&travel)) {
      if (!terms_.distance) {
        ledger_.ask(
            "distance", "travel",
            fmt::format("How many {} did the travel come to, out and back?", word_of(by_distance->unit)));
        return;
      }
      charge("travel", ChargeKind::travel, "Travel", *terms_.distance, by_distance->unit,
             by_distance->per_unit, Ledger::Grows::yes);
    }
  }

  static std::string fallback_words(const works::Fallback& fallback) {
    switch (fallback.kind) {
      case works::Fallback::Kind::drop:
        return "Not built: " + fallback.part;
      case works::Fallback::Kind::gravel_for_flags:
        return "Gravel in place of flags: " + fallback.part;
      case works::Fallback::Kind::one_course_lower:
        return "One course lower: " + fallback.part;
    }
    throw std::invalid_argument("no such fallback");
  }

  void fallbacks() {
    std::vector<works::Name> seen;
    for (const works::Name& part : terms_.fallbacks_used) {
      if (std::find(seen.begin(), seen.end(), part) != seen.end()) continue;
      seen.push_back(part);
      bool known = false;
      for (const works::Fallback& fallback : job_.fallbacks) {
        if (fallback.part != part) continue;
        known = true;
        const std::string key = ledger_.own_key(join_key("fallback", part));
        if (!fallback.price) {
          ledger_.ask("fallback-price", key,
                      fmt::format("How much comes off the bill? {}. The job names no price for it.",
                                  fallback_words(fallback)));
        } else if (in_currency(*fallback.price, key, part)) {
          charge(key, ChargeKind::fallback, fallback_words(fallback), -one_unit, Unit::each, *fallback.price);
        }
      }
      if (!known) {
        ledger_.ask("unknown-fallback", join_key("fallback", part),
                    fmt::format("\"{}\" is no fallback of the job. Which was made use of?", part));
      }
    }
  }

  void deposit() {
    ledger_.leave_billed_deposits(before_.deposits);
    base::Money billed = amount(0);
    for (const BilledDeposit& one : before_.deposits)
      billed = billed + one.billed;
    const std::int64_t said = terms_.deposit.value_or(amount(0)).minor();
    // What was billed by itself is taken off by that; it is the same money, not more of it.
    const base::Money taken = amount(std::max<std::int64_t>(0, said - billed.minor()));
    const base::Money used = before_.deposit.value_or(amount(0));
    if (taken.minor() >= used.minor()) {
      ledger_.leave_deposit(taken - used);
    } else if (terms_.deposit) {
      ledger_.ask(
          "changed-since", "deposit",
          fmt::format(
              "{} of deposit was set against earlier invoices, and now only {} was taken. Which is right?",
              used.text(), taken.text()));
    }
    const std::optional<int>& usual = terms_.rates.usual_deposit;
    if (!terms_.deposit && billed.minor() == 0 && usual && has_price()) {
      ledger_.ask(
          "deposit", "deposit",
          fmt::format("Was the usual deposit of {} taken? Say how much, or nought.", percent_text(*usual)));
    }
  }

  void off() {
    if (!terms_.off) return;
    Off left = *terms_.off;
    if (left.amount) {
      const base::Money used = before_.off.value_or(amount(0));
      if (used.minor() >= left.amount->minor()) return;
      left.amount = *left.amount - used;
    }
    ledger_.take_off(std::move(left));
  }

  bool in_currency(const base::Money& money, const std::string& key, const std::string& what) {
    if (money.currency() == terms_.rates.currency) return true;
    ledger_.ask(
        "currency", key,
        fmt::format("\"{}\" is in {}, and the invoice is in {}. How much is it in {}?", what,
                    money.currency().code(), terms_.rates.currency.code(), terms_.rates.currency.code()));
    return false;
  }

  bool has_rate(const std::string& key, const std::string& what) {
    if (terms_.rates.day_work) return true;
    ledger_.ask("day-work-rate", key,
                fmt::format("What does an hour of \"{}\" cost? No rate for day work is known.", what));
    return false;
  }

  const Terms& terms_;
  const works::Job& job_;
  const works::TaskList& tasks_;
  const works::Progress& progress_;
  const BilledBefore& before_;
  Ledger ledger_;
  std::vector<std::size_t> hours_taken_;
};

}  // namespace

std::string_view word_of(ChargeKind kind) {
  switch (kind) {
    case ChargeKind::price:
      return "price";
    case ChargeKind::stage:
      return "stage";
    case ChargeKind::extra:
      return "extra";
    case ChargeKind::day_work:
      return "day-work";
    case ChargeKind::materials:
      return "materials";
    case ChargeKind::travel:
      return "travel";
    case ChargeKind::fallback:
      return "fallback";
    case ChargeKind::deposit:
      return "deposit";
  }
  throw std::invalid_argument("no such kind of charge");
}

base::Money gross_of(const Charge& charge) {
  return {scaled(charge.quantity, charge.unit_price.minor(), one_unit), charge.unit_price.currency()};
}

base::Money net_of(const Charge& charge) {
  return charge.discount ? gross_of(charge) - charge.discount->amount : gross_of(charge);
}

Charges charges_of(const Terms& terms, const works::Job& job, const works::TaskList& tasks,
                   const works::Progress& progress, const BilledBefore& before) {
  return Maker(terms, job, tasks, progress, before).run();
}

}  // namespace weatherstruck::account
