#pragma once
// What there is to bill: the terms agreed for a job held against its site book. What cannot be billed is
// told, never dropped: either a question that the mason has to answer first, or a thing kept off with its
// reason. All prices are before tax.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/account/rates.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/progress.h"
#include "weatherstruck/works/task_list.h"

namespace weatherstruck::account {

/// Something taken off: a share of the sum or an amount, never both.
struct Off {
  int percent = 0;                      ///< hundredths of a percent, 1..10000; 0 where it is an amount
  std::optional<base::Money> amount{};  ///< > 0
  std::string reason;                   ///< printed, not empty: EN 16931 BR-33, BR-42
  friend bool operator==(const Off&, const Off&) = default;
};

/// A share of the fixed price that falls due when its tasks are done.
struct Stage {
  std::string title;               ///< unlike the other stages'; the customer reads it
  base::Money price;               ///< > 0
  std::vector<works::Name> tasks;  ///< tasks, or parts: all their work; not empty
  std::optional<Off> off{};        ///< from its price
  std::optional<Tax> tax{};        ///< nullopt: that of the job
};

/// Hours that the mason says he spent by the hour.
struct DayWork {
  std::string what;          ///< where it is an extra of the book, its words exactly
  std::int64_t thousandths;  ///< person-hours, 1..10'000'000
};

/// Whether a kind of cost is covered by the fixed price or comes on top of it.
enum class Cover { in_the_price, on_top };

struct InvoiceNumber {
  std::string series;                  ///< may be empty; at most 20 characters of letters, digits, '-', '/'
  std::optional<std::int64_t> number;  ///< from 1; nullopt: a draft that has none yet
  friend bool operator==(const InvoiceNumber&, const InvoiceNumber&) = default;
};
/// "7", "2026-7"; "draft" for one without a number.
[[nodiscard]] std::string number_text(const InvoiceNumber& number);

/// A deposit that was billed on an invoice of its own (account/deposit.h).
struct BilledDeposit {
  InvoiceNumber number;
  base::LocalDay issued;
  Tax tax;
  base::Money left;    ///< before tax, >= 0: what neither an invoice took off nor a credit note took back
  base::Money billed;  ///< with its tax, less what credit notes took back
  friend bool operator==(const BilledDeposit&, const BilledDeposit&) = default;
};

/// What was agreed for one job.
struct Terms {
  Rates rates;
  std::optional<base::Money> fixed_price{};  ///< > 0; nullopt: no fixed price, or one in stages
  std::vector<Stage> stages{};               ///< with a fixed price they must come to it
  bool by_the_hour = false;                  ///< the hours of the book are billed as day work, task by task
  std::vector<DayWork> day_work{};
  std::optional<Cover> materials{};           ///< nullopt: asked where there is a fixed price, else on top
  std::optional<Cover> travel{};              ///< likewise
  std::optional<std::int64_t> distance{};     ///< thousandths of the unit of travel, all trips, out and back
  int trips = 1;                              ///< for travel charged by the trip, 0..100
  std::vector<works::Name> fallbacks_used{};  ///< parts of the job's fallbacks that were made use of
  /// Taken already, with its tax, >= 0; nullopt: not said. As much of it as was billed on invoices of its
  /// own is taken off by those.
  std::optional<base::Money> deposit{};
  std::optional<Tax> tax{};  ///< on everything of this job; nullopt: as the rates say
  std::optional<Off> off{};  ///< from the whole: a share of every bill, an amount once
};

/// A tax as the job's document has it; no tax known by another word than those of code_of(TaxCategory).
/// @throws std::invalid_argument for another word
[[nodiscard]] Tax tax_of(const works::PriceTax& said);

/// What was agreed for a job, as its document has it, at these rates. Hours said and fallbacks used stand in
/// no document and are left empty.
[[nodiscard]] Terms terms_of(const Rates& rates, const std::optional<works::Price>& price);

/// "out-of-range", "wrong-currency", "stages-differ" (they do not come to the fixed price), "no-tasks",
/// "same-title", "price-and-hours", "missing-reason", "one-of-two" (what is taken off: a share and an amount,
/// or neither) and those of rates and taxes.
[[nodiscard]] base::Faults faults_of(const Terms& terms, const std::string& place = "terms");

enum class ChargeKind {
  price,
  stage,
  extra,
  day_work,
  materials,
  travel,
  fallback,
  deposit  ///< billed before the work on an invoice of its own; below nought: taken off the one for the work
};
/// "price", "stage", "extra", "day-work", "materials", "travel", "fallback", "deposit".
[[nodiscard]] std::string_view word_of(ChargeKind kind);

/// Taken off one line, in whole minor units: BG-27.
struct Discount {
  base::Money amount;  ///< > 0, and no more than quantity x price
  std::string reason;  ///< BT-139
  friend bool operator==(const Discount&, const Discount&) = default;
};

/// One thing to bill.
struct Charge {
  std::string key;  ///< the same whenever the same thing comes up: what was billed is known by it
  ChargeKind kind = ChargeKind::price;
  std::string text;           ///< for the customer
  std::int64_t quantity = 0;  ///< thousandths; negative: taken off (a price never is: EN 16931 BR-27)
  Unit unit = Unit::each;
  base::Money unit_price;  ///< >= 0
  Tax tax;
  std::optional<Discount> discount{};
  friend bool operator==(const Charge&, const Charge&) = default;
};
/// quantity x price, rounded half away from zero to a minor unit. @throws std::overflow_error
[[nodiscard]] base::Money gross_of(const Charge& charge);
/// That less its discount. @throws std::overflow_error
[[nodiscard]] base::Money net_of(const Charge& charge);

/// To be answered by the mason; what it is about is not billed until then unless it says otherwise.
struct Question {
  std::string code;  ///< "agreed-by", "hours", "day-work-rate", "receipt", "materials-in-price",
                     ///< "travel-in-price", "distance", "unknown-fallback", "fallback-price", "unknown-task",
                     ///< "unfinished", "still-at-it", "deposit", "currency", "changed-since"
  std::string about;  ///< key of the charge
  std::string text;   ///< a sentence or two
  friend bool operator==(const Question&, const Question&) = default;
};

/// Left off for a known reason: in the fixed price, stage not done, billed before.
struct KeptOff {
  std::string key;
  std::string text;
  std::string why;
  friend bool operator==(const KeptOff&, const KeptOff&) = default;
};

struct Charges {
  base::Currency currency;
  std::vector<Charge> lines;  ///< price or stages, extras, day work, materials, travel, fallbacks
  base::Money deposit;        ///< taken without an invoice of its own and not yet set against one; >= 0
  std::vector<Question> questions;
  std::vector<KeptOff> kept_off;
  std::optional<Off> off{};               ///< from the whole; an amount is what is left of it
  std::vector<BilledDeposit> deposits{};  ///< to be taken off, each with its tax, as far as the lines hold it
};

/// A line of an invoice issued before for the same job, or of a credit note, and then the other way round.
struct Billed {
  enum class Paper {
    invoice,
    taken_back,  ///< by a credit note, to be billed anew
    given_back   ///< by a credit note, for good
  };
  std::string key;
  std::int64_t quantity = 0;  ///< thousandths
  base::Money net;
  std::string invoice;  ///< its number as printed
  Paper paper = Paper::invoice;
};
struct BilledBefore {
  std::vector<Billed> lines;
  std::optional<base::Money> deposit;     ///< set against them so far, less what credit notes put back
  std::optional<base::Money> off{};       ///< taken off the whole of them so far, likewise
  std::vector<BilledDeposit> deposits{};  ///< in the order they were issued
};

/// Hours and travel go on growing, so of those what is more than was billed is billed; of all else a thing
/// billed once is kept off, and asked about where it comes to another sum now. What a credit note took back
/// is billed again, as much as it took, unless that was for good: then it stays off whether the site book was
/// corrected to what is left of it or not.
/// @pre faults_of(terms) is empty; `tasks` is derive_tasks(job), and `progress` is of them
[[nodiscard]] Charges charges_of(const Terms& terms, const works::Job& job, const works::TaskList& tasks,
                                 const works::Progress& progress, const BilledBefore& before = {});

}  // namespace weatherstruck::account
