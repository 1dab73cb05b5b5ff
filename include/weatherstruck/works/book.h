#pragma once
// The site book: what happened on the job, said by the mason, entry after entry. Entries are added and never
// changed; one that was wrong is corrected by a later one that names it. The book may reach us in any order
// and more than once (a phone without signal sends again): what it comes to does not depend on that.
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::works {

/// Chosen by whoever writes the entry, unique in the job's book; a second entry of the same key is the first
/// one sent again. 1..64 printable ASCII characters without spaces.
using EntryKey = std::string;

/// How much of a task. Courses and quantities come on top of what was done before; `Whole` and `Share` say
/// how the task stands then.
struct Whole {
  friend bool operator==(const Whole&, const Whole&) = default;
};
struct Courses {
  int count = 0;  ///< 1..40
  friend bool operator==(const Courses&, const Courses&) = default;
};
struct Measured {
  double value = 0;  ///< > 0, at most 100000
  std::string unit;  ///< "m3"; empty: the task's own
  friend bool operator==(const Measured&, const Measured&) = default;
};
struct Share {
  base::Fraction of_all;  ///< 0..1, of the whole task, earlier work included
  friend bool operator==(const Share&, const Share&) = default;
};
using Amount = std::variant<Whole, Courses, Measured, Share>;

struct Begin {
  Name task;
  friend bool operator==(const Begin&, const Begin&) = default;
};
/// The moment of the entry is when the hands left it.
struct Done {
  Name task;
  Amount amount;
  friend bool operator==(const Done&, const Done&) = default;
};
struct StoodDown {
  std::string cause;
  base::Instant from;
  base::Instant to;  ///< after `from`, at most 7 days
  friend bool operator==(const StoodDown&, const StoodDown&) = default;
};
/// The level of the ground beside a trench.
struct LevelRead {
  Name part;           ///< a footing
  base::Metres along;  ///< from its high end as drawn, 0..its length
  base::Metres
      level;  ///< above one mark, the same for all readings of the footing; -20..20, below is negative
  friend bool operator==(const LevelRead&, const LevelRead&) = default;
};
/// What lies at the site, counted.
struct StockCount {
  std::string material;  ///< key of the materials table
  double amount = 0;     ///< in the table's unit, 0..1e6
  friend bool operator==(const StockCount&, const StockCount&) = default;
};
/// Material that came, by lorry or in the van.
struct Arrived {
  std::string material;
  double amount = 0;  ///< > 0
  friend bool operator==(const Arrived&, const Arrived&) = default;
};
struct Note {
  std::string text;
  friend bool operator==(const Note&, const Note&) = default;
};
struct Expense {
  std::string what;
  base::Money money;
  std::optional<std::string> receipt;  ///< its number or name
  friend bool operator==(const Expense&, const Expense&) = default;
};
struct Extra {
  std::string what;
  std::string agreed_by;             ///< empty: not said; the progress asks
  std::optional<base::Money> price;  ///< nullopt: day work
  friend bool operator==(const Extra&, const Extra&) = default;
};
struct CoverOn {
  Name part;
  trade::CoverKind kind = trade::CoverKind::hessian;  ///< hessian, sheet, both, or mat
  friend bool operator==(const CoverOn&, const CoverOn&) = default;
};
struct CoverOff {
  Name part;
  std::optional<trade::CoverKind> kind;  ///< nullopt: all that is on
  friend bool operator==(const CoverOff&, const CoverOff&) = default;
};
/// Over a part; where it stood elsewhere it was moved.
struct CanopyUp {
  Name part;
  friend bool operator==(const CanopyUp&, const CanopyUp&) = default;
};
struct CanopyDown {
  friend bool operator==(const CanopyDown&, const CanopyDown&) = default;
};
struct Thermometer {
  base::Celsius air;  ///< -40..50
  friend bool operator==(const Thermometer&, const Thermometer&) = default;
};
struct Gauge {
  base::Millimetres rain;  ///< 0..500
  base::Instant since;     ///< when it was last empty, before the moment of the entry
  friend bool operator==(const Gauge&, const Gauge&) = default;
};
/// Only as a correction: what the corrected entry says never happened.
struct Struck {
  friend bool operator==(const Struck&, const Struck&) = default;
};

using What = std::variant<Begin, Done, StoodDown, LevelRead, StockCount, Arrived, Note, Expense, Extra,
                          CoverOn, CoverOff, CanopyUp, CanopyDown, Thermometer, Gauge, Struck>;

struct Entry {
  EntryKey key;
  What what;
  base::Instant at;                  ///< when it happened; of a StoodDown, its `from`
  base::Instant noted_at;            ///< when it was written
  std::optional<EntryKey> corrects;  ///< the entry that this one stands in for
  friend bool operator==(const Entry&, const Entry&) = default;
};

/// What is wrong with an entry in itself: ranges above, a moment after it was noted, Struck that corrects
/// nothing. Names are not looked up. Places: "at", "what/amount", ...
[[nodiscard]] base::Faults faults_of(const Entry& entry);

/// Entries in the order in which they came.
class Book {
 public:
  enum class Appended {
    added,
    repeated,  ///< the same entry was there already; nothing changed
    clash      ///< another entry has that key; nothing changed
  };
  Appended append(Entry entry);
  [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }
  /// nullptr where there is none.
  [[nodiscard]] const Entry* find(const EntryKey& key) const;
  [[nodiscard]] std::size_t size() const { return entries_.size(); }

 private:
  std::vector<Entry> entries_;
  std::vector<std::size_t> by_key_;  ///< into entries_, sorted by key
};

/// Opens the place of a fault in a book; the entry's key follows.
inline constexpr std::string_view entry_place = "entry ";

/// The entries that count, by `at`, of one moment those that begin something last, then `noted_at`, then key.
struct Effective {
  std::vector<Entry> entries;  ///< none is a Struck
  base::Faults faults;         ///< "corrects-unknown", "corrects-in-circle": those entries count for nothing
};

/// Of an entry and everything that corrects it, or corrects a correction of it, exactly one counts: the last
/// noted of those that nothing corrects. The order in which entries came does not matter.
[[nodiscard]] Effective effective(const Book& book);

}  // namespace weatherstruck::works
