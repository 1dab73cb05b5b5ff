#include "weatherstruck/works/said.h"

#include <chrono>
#include <cmath>
#include <variant>

#include "weatherstruck/base/text.h"
#include "weatherstruck/trade/covers.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {
namespace {

constexpr int every_decimal = 17;

/// The fewest decimals that read back as the same number.
std::string exact(double value) {
  for (int decimals = 0; decimals < every_decimal; ++decimals) {
    std::string text = base::plain_number(value, decimals);
    if (base::parse_number(text) == value) return text;
  }
  return base::plain_number(value, every_decimal);
}
std::string cover_words(trade::CoverKind kind) {
  return std::string(trade::row_for(kind).title);
}
std::string material_words(const std::string& key) {
  const trade::Material* row = trade::find_material(key);
  return row != nullptr ? std::string(row->title) : key;
}
std::string unit_of(const std::string& material) {
  const trade::Material* row = trade::find_material(material);
  return row != nullptr ? std::string(row->unit) : std::string();
}
/// "60 facing bricks", "75 kg of cement".
std::string counted_material(const std::string& key, double amount) {
  const std::string number = base::plain_number(amount, 2) + " ";
  const std::string unit = unit_of(key);
  const bool by_piece = unit == "bricks" || unit == "flags" || unit == "each";
  return number + (by_piece ? "" : unit + " of ") + material_words(key);
}

class ShownBack {
 public:
  ShownBack(base::Instant at, const TaskList& tasks, const base::Zone& zone, base::Instant now)
      : at_(at), tasks_(tasks), zone_(zone), now_(now) {}

  std::string operator()(const Begin& what) const { return title(what.task) + ": begun" + at() + right; }
  std::string operator()(const Done& what) const {
    const Task* task = tasks_.find(what.task);
    const std::string amount = said(what.amount, task != nullptr ? task->unit : "");
    const bool of_all = std::holds_alternative<Share>(what.amount);
    return title(what.task) + ": " + amount + (of_all ? " of it" : "") + " done" + at() + right;
  }
  std::string operator()(const StoodDown& what) const {
    return "Stood down " + clock(what.from) + " to " + clock(what.to) +
           (what.cause.empty() ? "" : ": " + what.cause) + right;
  }
  std::string operator()(const LevelRead& what) const {
    const double level = what.level.value();
    return sentence(spoken(what.part)) + ", " + base::plain_number(what.along.value(), 2) +
           " m along: ground " +
           (level == 0 ? std::string("at the mark")
                       : base::plain_number(std::abs(level) * 1000, 0) + " mm " +
                             (level < 0 ? "below" : "above") + " the mark") +
           right;
  }
  std::string operator()(const StockCount& what) const {
    return counted_material(what.material, what.amount) + " left" + at() + right;
  }
  std::string operator()(const Arrived& what) const {
    return counted_material(what.material, what.amount) + " came" + at() + right;
  }
  std::string operator()(const Note& what) const { return "Note" + at() + ": " + what.text; }
  std::string operator()(const Expense& what) const {
    return what.money.text() + " spent on " + what.what +
           (what.receipt ? ", receipt " + *what.receipt : ", no receipt named") + right;
  }
  std::string operator()(const Extra& what) const {
    return "Extra: " + what.what + ", " + (what.price ? what.price->text() : std::string("day work")) +
           (what.agreed_by.empty() ? ", agreed by nobody yet" : ", agreed with " + what.agreed_by) + right;
  }
  std::string operator()(const CoverOn& what) const {
    return sentence(spoken(what.part)) + ": covered with " + cover_words(what.kind) + at() + right;
  }
  std::string operator()(const CoverOff& what) const {
    return sentence(spoken(what.part)) + ": " +
           (what.kind ? cover_words(*what.kind) + " taken off" : "uncovered") + at() + right;
  }
  std::string operator()(const CanopyUp& what) const {
    return "Canopy up over the " + spoken(what.part) + at() + right;
  }
  std::string operator()(const CanopyDown& /*what*/) const { return "Canopy down" + at() + right; }
  std::string operator()(const Thermometer& what) const {
    return base::plain_number(what.air.value(), 1) + " C" + at() + right;
  }
  std::string operator()(const Gauge& what) const {
    return base::plain_number(what.rain.value(), 1) + " mm in the gauge from " + clock(what.since) + " to " +
           clock(at_) + right;
  }
  std::string operator()(const Struck& /*what*/) const { return "Strike the entry out" + std::string(right); }

 private:
  static constexpr const char* right = ". Right?";

  [[nodiscard]] std::string clock(base::Instant t) const {
    const base::LocalTime local = zone_.to_local(t);
    return zone_.day_of(t) == zone_.day_of(now_) ? base::clock_time(local) : base::day_and_time(local);
  }
  [[nodiscard]] std::string at() const { return " at " + clock(at_); }
  [[nodiscard]] std::string title(const Name& name) const {
    const Task* task = tasks_.find(name);
    return task != nullptr ? short_title(*task) : spoken(name);
  }
  static std::string sentence(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
      words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
  }

  base::Instant at_;
  const TaskList& tasks_;
  const base::Zone& zone_;
  base::Instant now_;
};

/// The lines that are read back exactly. See the grammar in book_words.cpp.
class ExactLine {
 public:
  ExactLine(base::Instant at, const base::Zone& zone)
      : zone_(zone), at_(" at " + moment(at)), moment_(moment(at)) {}

  std::optional<std::string> operator()(const Begin& what) const { return "began " + what.task + at_; }
  std::optional<std::string> operator()(const Done& what) const {
    return "did " + said(what.amount) + " of " + what.task + at_;
  }
  std::optional<std::string> operator()(const StoodDown& what) const {
    return "stood down " + moment(what.from) + " to " + moment(what.to) +
           (what.cause.empty() ? "" : ", " + what.cause);
  }
  std::optional<std::string> operator()(const LevelRead& what) const {
    return "level " + what.part + " " + exact(what.along.value()) + " m: " + exact(what.level.value()) +
           " m" + at_;
  }
  std::optional<std::string> operator()(const StockCount& what) const {
    return "counted " + exact(what.amount) + " " + unit_of(what.material) + " of " + what.material + at_;
  }
  std::optional<std::string> operator()(const Arrived& what) const {
    return "delivered " + exact(what.amount) + " " + unit_of(what.material) + " of " + what.material + at_;
  }
  std::optional<std::string> operator()(const Note& what) const {
    return "note at " + moment_ + ": " + what.text;
  }
  std::optional<std::string> operator()(const Expense& what) const {
    return "spent " + what.money.text() + " on " + what.what +
           (what.receipt ? ", receipt " + *what.receipt : std::string()) + at_;
  }
  std::optional<std::string> operator()(const Extra& what) const {
    return "extra: " + what.what + ", " + (what.price ? what.price->text() : std::string("day work")) +
           (what.agreed_by.empty() ? "" : ", agreed with " + what.agreed_by) + at_;
  }
  std::optional<std::string> operator()(const CoverOn& what) const {
    return "covered " + what.part + " with " + cover_words(what.kind) + at_;
  }
  std::optional<std::string> operator()(const CoverOff& what) const {
    return (what.kind ? "took " + cover_words(*what.kind) + " off " : "uncovered ") + what.part + at_;
  }
  std::optional<std::string> operator()(const CanopyUp& what) const {
    return "canopy up over " + what.part + at_;
  }
  std::optional<std::string> operator()(const CanopyDown& /*what*/) const { return "canopy down" + at_; }
  std::optional<std::string> operator()(const Thermometer& what) const {
    return "thermometer " + exact(what.air.value()) + " C" + at_;
  }
  std::optional<std::string> operator()(const Gauge& what) const {
    return "gauge " + exact(what.rain.value()) + " mm since " + moment(what.since) + at_;
  }
  std::optional<std::string> operator()(const Struck& /*what*/) const { return std::nullopt; }

 private:
  [[nodiscard]] std::string moment(base::Instant t) const {
    const base::Instant minute = std::chrono::floor<std::chrono::minutes>(t);
    const base::LocalTime local = zone_.to_local(minute);
    return zone_.meaning(local).kind == base::LocalMeaning::Kind::unique ? base::iso_local(local)
                                                                         : base::iso_utc(minute);
  }
  const base::Zone& zone_;
  std::string at_;
  std::string moment_;
};

}  // namespace

std::string short_title(const Task& task) {
  const std::size_t bracket = task.title.find(" (");
  return bracket == std::string::npos ? task.title : task.title.substr(0, bracket);
}

std::string said(const Amount& amount, const std::string& unit) {
  if (const auto* courses = std::get_if<Courses>(&amount)) return counted(courses->count, "course");
  if (const auto* measured = std::get_if<Measured>(&amount)) {
    const std::string& named = measured->unit.empty() ? unit : measured->unit;
    return exact(measured->value) + (named.empty() ? "" : " " + named);
  }
  if (const auto* share = std::get_if<Share>(&amount)) {
    return base::plain_number(share->of_all.value() * 100, 6) + " %";
  }
  return "all";
}

std::string shown_back(const What& what, base::Instant at, const TaskList& tasks, const base::Zone& zone,
                       base::Instant now) {
  return std::visit(ShownBack(at, tasks, zone, now), what);
}

std::optional<std::string> exact_line(const What& what, base::Instant at, const base::Zone& zone) {
  return std::visit(ExactLine(at, zone), what);
}

}  // namespace weatherstruck::works
