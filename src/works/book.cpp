#include "weatherstruck/works/book.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/materials.h"

namespace weatherstruck::works {
namespace {

constexpr std::size_t longest_text = 2000;
constexpr std::size_t longest_key = 64;
constexpr auto longest_stand = std::chrono::hours(7 * 24);

/// Collects the faults of one entry.
class EntryCheck {
 public:
  explicit EntryCheck(const Entry& entry) : entry_(entry) {}

  base::Faults run() {
    key(entry_.key, "key");
    if (entry_.corrects) key(*entry_.corrects, "corrects");
    if (entry_.corrects == entry_.key) {
      fault("corrects-itself", "corrects", entry_.key, "the key of another entry",
            "Give the correction a key of its own.");
    }
    if (entry_.at > entry_.noted_at) {
      fault("not-yet", "at", base::iso_utc(entry_.at), "a time up to " + base::iso_utc(entry_.noted_at),
            "Say when it happened; the book holds no plans.");
    }
    std::visit([this](const auto& what) { (*this)(what); }, entry_.what);
    return std::move(faults_);
  }

  void operator()(const Begin& what) { named(what.task, "what/task", "a task"); }
  void operator()(const Done& what) {
    named(what.task, "what/task", "a task");
    if (const auto* courses = std::get_if<Courses>(&what.amount)) {
      range(courses->count, 1, 40, "what/amount", "courses");
    } else if (const auto* measured = std::get_if<Measured>(&what.amount)) {
      above_nought(measured->value, 100000, "what/amount", measured->unit);
    } else if (const auto* share = std::get_if<Share>(&what.amount)) {
      range(share->of_all.value(), 0, 1, "what/amount", "of the whole");
    }
  }
  void operator()(const StoodDown& what) {
    text(what.cause, "what/cause", true);
    if (what.from >= what.to || what.to - what.from > longest_stand) {
      fault("span-backwards", "what/to", base::iso_utc(what.to), "after it began, and within 7 days",
            "Say from when to when you stood down.");
    }
    if (what.from != entry_.at) {
      fault("span-elsewhere", "at", base::iso_utc(entry_.at), "the moment it began",
            "Date the entry by its first moment.");
    }
  }
  void operator()(const LevelRead& what) {
    named(what.part, "what/part", "a footing");
    range(what.along.value(), 0, 60, "what/along", "m");
    range(what.level.value(), -20, 20, "what/level", "m");
  }
  void operator()(const StockCount& what) {
    material(what.material);
    range(what.amount, 0, 1e6, "what/amount", "");
  }
  void operator()(const Arrived& what) {
    material(what.material);
    above_nought(what.amount, 1e6, "what/amount", "");
  }
  void operator()(const Note& what) { text(what.text, "what/text", false); }
  void operator()(const Expense& what) {
    text(what.what, "what/what", false);
    if (what.money.minor() <= 0) {
      fault("out-of-range", "what/money", what.money.text(), "more than nothing", "Say what it cost.");
    }
    if (what.receipt) text(*what.receipt, "what/receipt", false);
  }
  void operator()(const Extra& what) {
    text(what.what, "what/what", false);
    text(what.agreed_by, "what/agreed_by", true);
    if (what.price && what.price->minor() < 0) {
      fault("out-of-range", "what/price", what.price->text(), "nothing or more", "Say what was agreed.");
    }
  }
  void operator()(const CoverOn& what) {
    named(what.part, "what/part", "a part");
    cover(what.kind);
  }
  void operator()(const CoverOff& what) {
    named(what.part, "what/part", "a part");
    if (what.kind) cover(*what.kind);
  }
  void operator()(const CanopyUp& what) { named(what.part, "what/part", "a part"); }
  void operator()(const CanopyDown& /*what*/) {}
  void operator()(const Thermometer& what) { range(what.air.value(), -40, 50, "what/air", "C"); }
  void operator()(const Gauge& what) {
    range(what.rain.value(), 0, 500, "what/rain", "mm");
    if (what.since >= entry_.at) {
      fault("span-backwards", "what/since", base::iso_utc(what.since),
            "before it was read (" + base::iso_utc(entry_.at) + ")", "Say since when the rain was caught.");
    }
  }
  void operator()(const Struck& /*what*/) {
    if (!entry_.corrects) {
      fault("strikes-nothing", "corrects", "nothing", "the key of the entry that is wrong",
            "Name the entry to strike out.");
    }
  }

 private:
  void fault(std::string code, std::string place, std::string found, std::string expected,
             std::string remedy) {
    faults_.push_back(
        {std::move(code), std::move(place), std::move(found), std::move(expected), std::move(remedy)});
  }
  void range(double value, double low, double high, const std::string& place, const std::string& unit) {
    if (value >= low && value <= high) return;
    const std::string after = unit.empty() ? "" : " " + unit;
    fault("out-of-range", place, std::isfinite(value) ? base::plain_number(value, 4) + after : "not a number",
          base::plain_number(low, 4) + " to " + base::plain_number(high, 4) + after, "Read it again.");
  }
  void above_nought(double value, double high, const std::string& place, const std::string& unit) {
    if (value == 0) {
      fault("out-of-range", place, "0", "more than 0", "Say how much.");
    } else {
      range(value, 0, high, place, unit);
    }
  }
  void key(const EntryKey& word, const std::string& place) {
    const bool plain = std::all_of(word.begin(), word.end(), [](char c) { return c > ' ' && c < '\x7f'; });
    if (!word.empty() && word.size() <= longest_key && plain) return;
    fault("bad-key", place, word.empty() ? "nothing" : std::to_string(word.size()) + " bytes",
          "1 to 64 printable characters without spaces", "Give the entry a key.");
  }
  void named(const Name& name, const std::string& place, const std::string& what) {
    if (name.empty()) fault("no-name", place, "nothing", "the name of " + what, "Name it.");
  }
  void text(const std::string& words, const std::string& place, bool may_be_empty) {
    if (words.empty() && !may_be_empty) fault("no-text", place, "nothing", "a few words", "Say what it was.");
    if (words.size() > longest_text || base::first_invalid_utf8(words)) {
      fault("bad-text", place, std::to_string(words.size()) + " bytes", "up to 2000 bytes of UTF-8",
            "Shorten it.");
    }
  }
  void material(const std::string& word) {
    if (trade::find_material(word) == nullptr) {
      fault("unknown-material", "what/material", word, "a key of the materials table",
            "Name the material as the quantities do.");
    }
  }
  void cover(trade::CoverKind kind) {
    if (kind == trade::CoverKind::bare || kind == trade::CoverKind::canopy) {
      fault("no-cover", "what/kind", kind == trade::CoverKind::bare ? "nothing" : "canopy",
            "hessian, sheet, hessian and sheet, or mat",
            "Log the canopy as up or down, and bare work as uncovered.");
    }
  }

  const Entry& entry_;
  base::Faults faults_;
};

bool noted_before(const Entry& a, const Entry& b) {
  return std::tie(a.noted_at, a.key) < std::tie(b.noted_at, b.key);
}

}  // namespace

base::Faults faults_of(const Entry& entry) {
  return EntryCheck(entry).run();
}

Book::Appended Book::append(Entry entry) {
  const auto place =
      std::lower_bound(by_key_.begin(), by_key_.end(), entry.key,
                       [this](std::size_t i, const EntryKey& key) { return entries_[i].key < key; });
  if (place != by_key_.end() && entries_[*place].key == entry.key) {
    return entries_[*place] == entry ? Appended::repeated : Appended::clash;
  }
  by_key_.insert(place, entries_.size());
  entries_.push_back(std::move(entry));
  return Appended::added;
}

const Entry* Book::find(const EntryKey& key) const {
  const auto place =
      std::lower_bound(by_key_.begin(), by_key_.end(), key,
                       [this](std::size_t i, const EntryKey& k) { return entries_[i].key < k; });
  return place != by_key_.end() && entries_[*place].key == key ? &entries_[*place] : nullptr;
}

Effective effective(const Book& book) {
  Effective result;
  std::map<EntryKey, const Entry*> by_key;
  std::map<EntryKey, bool> corrected;
  for (const Entry& entry : book.entries()) {
    by_key.emplace(entry.key, &entry);
    if (entry.corrects) corrected[*entry.corrects] = true;
  }
  // Where each entry's chain of corrections begins; empty where it begins nowhere.
  std::map<EntryKey, const Entry*> last_of;  // the last noted leaf, by the key of the first entry of its tree
  for (const auto& [key, entry] : by_key) {
    const Entry* root = entry;
    std::size_t steps = 0;
    while (root->corrects && steps <= by_key.size()) {
      const auto above = by_key.find(*root->corrects);
      if (above == by_key.end()) break;
      root = above->second;
      ++steps;
    }
    if (steps > by_key.size()) {
      result.faults.push_back({"corrects-in-circle", std::string(entry_place) + key, *entry->corrects,
                               "an entry that does not correct this one in turn",
                               "Write the entry again under a new key that corrects nothing."});
      continue;
    }
    if (root->corrects) {
      result.faults.push_back({"corrects-unknown", std::string(entry_place) + key, *root->corrects,
                               "the key of an entry of this book",
                               "Send the entry that it corrects too, or write it again as a new one."});
      continue;
    }
    if (corrected.count(key) > 0) continue;
    const Entry*& last = last_of[root->key];
    if (last == nullptr || noted_before(*last, *entry)) last = entry;
  }
  for (const auto& [key, entry] : last_of) {
    if (!std::holds_alternative<Struck>(entry->what)) result.entries.push_back(*entry);
  }
  // What ends at a moment comes before what begins at it.
  const auto begins = [](const Entry& entry) { return std::holds_alternative<Begin>(entry.what); };
  std::sort(result.entries.begin(), result.entries.end(), [&](const Entry& a, const Entry& b) {
    return std::make_tuple(a.at, begins(a), a.noted_at, a.key) <
           std::make_tuple(b.at, begins(b), b.noted_at, b.key);
  });
  return result;
}

}  // namespace weatherstruck::works
