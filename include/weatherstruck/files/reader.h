#pragma once
// Checked reading of one JSON object at a time. A reader is asked for each member by key, kind and
// range; it answers with the value, or notes a fault and answers with a stand-in that is in range, so
// that reading goes on and every fault comes out in one run. Whoever reads hands nothing on once there
// is a fault. The keys asked for are also the keys allowed: finish() notes the others.
#include <chrono>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/base/fault.h"
#include "weatherstruck/base/money.h"
#include "weatherstruck/base/quantity.h"
#include "weatherstruck/base/zone.h"
#include "weatherstruck/files/json.h"
#include "weatherstruck/files/words.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

/// The closed span a number must lie in, and its unit as people say it ("m", "hours", "").
struct NumberRange {
  double low = 0;
  double high = 0;
  std::string_view unit;
};

/// What one reading of a document gathers: its faults, and which keys each shape (kind of object, named
/// as in the JSON Schema's $defs) was asked for.
class Reading {
 public:
  /// Past 100 faults one last "too-many-faults" stands for the rest.
  void add(base::Fault fault);
  [[nodiscard]] const base::Faults& faults() const { return faults_; }
  [[nodiscard]] base::Faults take_faults() { return std::move(faults_); }
  [[nodiscard]] std::map<std::string, std::set<std::string>, std::less<>>& shapes() { return shapes_; }

 private:
  base::Faults faults_;
  std::map<std::string, std::set<std::string>, std::less<>> shapes_;
};

/// Reads one object. Methods without a fallback need the key. Codes: "missing-key", "wrong-type",
/// "out-of-range", "bad-word", "bad-name", "bad-text", "bad-time", "bad-span", "bad-money",
/// "nonexistent-time", "ambiguous-time", "unknown-key", "too-many", "too-few".
class ObjectReader {
 public:
  /// `value` must outlive the reader. Anything but an object is a fault, and then reads as an empty one
  /// whose missing keys are not told.
  ObjectReader(Reading& reading, const Json& value, std::string pointer, std::string_view shape);

  [[nodiscard]] const std::string& pointer() const { return pointer_; }
  [[nodiscard]] std::string place(std::string_view key) const { return pointer_to(pointer_, key); }
  [[nodiscard]] Reading& reading() { return *reading_; }

  double number(std::string_view key, NumberRange range, std::optional<double> fallback = {});
  int whole(std::string_view key, int low, int high, std::optional<int> fallback = {});
  bool truth(std::string_view key, bool fallback);
  base::Metres metres(std::string_view key, double low, double high,
                      std::optional<base::Metres> fallback = {});
  /// Hours as a number, or as "h:mm".
  base::Hours hours(std::string_view key, double low, double high, std::optional<base::Hours> fallback = {});
  /// One line of text, 1 to `longest` characters (from 0 where there is a fallback).
  std::string text(std::string_view key, std::size_t longest, std::optional<std::string_view> fallback = {});
  /// A short name: [a-z][a-z0-9-]{0,39}.
  works::Name name(std::string_view key, std::optional<std::string_view> fallback = {});
  /// Key of a table (materials): letters, digits, dashes, underscores and dots, 1..60.
  std::string table_key(std::string_view key);
  std::vector<works::Name> names(std::string_view key, std::size_t most);
  std::vector<std::string> table_keys(std::string_view key, std::size_t most);
  works::DaySpan span(std::string_view key, works::DaySpan fallback);
  std::vector<works::DaySpan> spans(std::string_view key, std::vector<works::DaySpan> fallback);
  /// A clock time of `zone` ("2026-02-09T05:30"), or one with its offset ("...+01:00", "...Z").
  base::Instant moment(std::string_view key, const base::Zone& zone);
  /// "35.00 GBP".
  std::optional<base::Money> money(std::string_view key);

  template <class E>
  E word(std::string_view key, std::span<const Word<E>> words, std::optional<E> fallback = {}) {
    std::vector<std::string> known;
    for (const auto& w : words)
      known.emplace_back(w.text);
    const auto at = word_position(key, known, !fallback.has_value());
    return at ? words[*at].value : fallback.value_or(words.front().value);
  }

  /// The value under a key, of whatever kind; null where it is absent, which is a fault if `expected` says
  /// what should stand there.
  const Json* member(std::string_view key, std::string_view expected = "");
  /// The list under a key, at most `most` long; empty where absent.
  const Json::array_t& list(std::string_view key, std::size_t most, std::size_t least = 0);

  /// Notes every key that was never asked for, with the nearest one that may stand here.
  void finish();

 private:
  void wrong_type(std::string_view key, const Json& value, std::string expected, std::string remedy);
  void fault(std::string code, std::string place, std::string found, std::string expected,
             std::string remedy);
  std::optional<std::size_t> word_position(std::string_view key, const std::vector<std::string>& known,
                                           bool needed);
  std::optional<works::DaySpan> span_at(const Json& value, const std::string& place);

  Reading* reading_;
  const Json* value_;
  std::string pointer_;
  std::set<std::string>* asked_;
  bool is_object_;
};

}  // namespace weatherstruck::files
