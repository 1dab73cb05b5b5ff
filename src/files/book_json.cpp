#include "weatherstruck/files/book_json.h"

#include <array>
#include <type_traits>
#include <utility>
#include <variant>

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/reader.h"
#include "weatherstruck/files/words.h"

namespace weatherstruck::files {
namespace {

using namespace works;

constexpr NumberRange any_number{-1e9, 1e9, ""};

Json amount_to_json(const Amount& amount) {
  Json json = Json::object();
  std::visit(
      [&](const auto& it) {
        using Kind = std::decay_t<decltype(it)>;
        if constexpr (std::is_same_v<Kind, Whole>) {
          json["whole"] = true;
        } else if constexpr (std::is_same_v<Kind, Courses>) {
          json["courses"] = it.count;
        } else if constexpr (std::is_same_v<Kind, Measured>) {
          json["value"] = it.value;
          json["unit"] = it.unit;
        } else {
          json["share"] = it.of_all.value();
        }
      },
      amount);
  return json;
}

Amount read_amount(ObjectReader& parent) {
  const Json* json = parent.member("amount", "an amount");
  if (json == nullptr) return Whole{};
  ObjectReader reader(parent.reading(), *json, parent.place("amount"), "amount");
  Amount amount = Whole{};
  if (json->contains("courses")) {
    amount = Courses{reader.whole("courses", 0, 1000)};
  } else if (json->contains("value")) {
    const double value = reader.number("value", any_number);
    amount = Measured{value, reader.text("unit", 20, "")};
  } else if (json->contains("share")) {
    amount = Share{base::Fraction(reader.number("share", any_number))};
  } else if (!reader.truth("whole", false)) {
    parent.reading().add({"bad-entry", parent.place("amount"), shown(*json), "an amount", ""});
  }
  reader.finish();
  return amount;
}

base::Instant moment_of(ObjectReader& reader, std::string_view key) {
  static const base::Zone utc = base::Zone::fixed("UTC", std::chrono::seconds(0));
  return reader.moment(key, utc);
}

}  // namespace

std::string kind_of(const What& what) {
  static constexpr auto kinds = std::to_array<std::string_view>(
      {"begin", "done", "stood-down", "level", "count", "arrived", "note", "expense", "extra", "cover-on",
       "cover-off", "canopy-up", "canopy-down", "thermometer", "gauge", "struck"});
  static_assert(std::size(kinds) == std::variant_size_v<What>);
  return std::string(kinds[what.index()]);
}

Json body_of(const What& what) {
  Json json = Json::object();
  std::visit(
      [&](const auto& it) {
        using Kind = std::decay_t<decltype(it)>;
        if constexpr (std::is_same_v<Kind, Begin>) {
          json["task"] = it.task;
        } else if constexpr (std::is_same_v<Kind, Done>) {
          json["task"] = it.task;
          json["amount"] = amount_to_json(it.amount);
        } else if constexpr (std::is_same_v<Kind, StoodDown>) {
          json["cause"] = it.cause;
          json["from"] = base::iso_utc(it.from);
          json["to"] = base::iso_utc(it.to);
        } else if constexpr (std::is_same_v<Kind, LevelRead>) {
          json["part"] = it.part;
          json["along"] = it.along.value();
          json["level"] = it.level.value();
        } else if constexpr (std::is_same_v<Kind, StockCount> || std::is_same_v<Kind, Arrived>) {
          json["material"] = it.material;
          json["amount"] = it.amount;
        } else if constexpr (std::is_same_v<Kind, Note>) {
          json["text"] = it.text;
        } else if constexpr (std::is_same_v<Kind, Expense>) {
          json["what"] = it.what;
          json["money"] = it.money.text();
          if (it.receipt) json["receipt"] = *it.receipt;
        } else if constexpr (std::is_same_v<Kind, Extra>) {
          json["what"] = it.what;
          json["agreed"] = it.agreed_by;
          if (it.price) json["price"] = it.price->text();
        } else if constexpr (std::is_same_v<Kind, CoverOn>) {
          json["part"] = it.part;
          json["kind"] = word_for(it.kind);
        } else if constexpr (std::is_same_v<Kind, CoverOff>) {
          json["part"] = it.part;
          if (it.kind) json["kind"] = word_for(*it.kind);
        } else if constexpr (std::is_same_v<Kind, CanopyUp>) {
          json["part"] = it.part;
        } else if constexpr (std::is_same_v<Kind, Thermometer>) {
          json["air"] = it.air.value();
        } else if constexpr (std::is_same_v<Kind, Gauge>) {
          json["rain"] = it.rain.value();
          json["since"] = base::iso_utc(it.since);
        } else {
          static_assert(std::is_same_v<Kind, CanopyDown> || std::is_same_v<Kind, Struck>);
        }
      },
      what);
  return json;
}

namespace {

// What it may hold was checked when it was written; names of tasks are longer than those of parts.
std::string free_text(ObjectReader& reader, std::string_view key) {
  const Json* json = reader.member(key, "text");
  if (json == nullptr) return {};
  if (json->is_string()) return json->get<std::string>();
  reader.reading().add({"wrong-type", reader.place(key), shown(*json), "text", ""});
  return {};
}

What read_what(const std::string& kind, ObjectReader& reader) {
  const auto cover = [&] { return reader.word<trade::CoverKind>("kind", words_of<trade::CoverKind>()); };
  if (kind == "begin") return Begin{free_text(reader, "task")};
  if (kind == "done") {
    Name task = free_text(reader, "task");
    return Done{std::move(task), read_amount(reader)};
  }
  if (kind == "stood-down") {
    std::string cause = free_text(reader, "cause");
    const base::Instant from = moment_of(reader, "from");
    return StoodDown{std::move(cause), from, moment_of(reader, "to")};
  }
  if (kind == "level") {
    Name part = free_text(reader, "part");
    const base::Metres along(reader.number("along", any_number));
    return LevelRead{std::move(part), along, base::Metres(reader.number("level", any_number))};
  }
  if (kind == "count" || kind == "arrived") {
    std::string material = free_text(reader, "material");
    const double amount = reader.number("amount", any_number);
    if (kind == "count") return StockCount{std::move(material), amount};
    return Arrived{std::move(material), amount};
  }
  if (kind == "note") return Note{free_text(reader, "text")};
  if (kind == "expense") {
    std::string what = free_text(reader, "what");
    const std::optional<base::Money> money = reader.money("money");
    std::optional<std::string> receipt;
    if (reader.member("receipt") != nullptr) receipt = free_text(reader, "receipt");
    return Expense{std::move(what), money.value_or(base::Money(0, *base::Currency::from_code("GBP"))),
                   std::move(receipt)};
  }
  if (kind == "extra") {
    std::string what = free_text(reader, "what");
    std::string agreed = free_text(reader, "agreed");
    std::optional<base::Money> price;
    if (reader.member("price") != nullptr) price = reader.money("price");
    return Extra{std::move(what), std::move(agreed), price};
  }
  if (kind == "cover-on") {
    Name part = free_text(reader, "part");
    return CoverOn{std::move(part), cover()};
  }
  if (kind == "cover-off") {
    Name part = free_text(reader, "part");
    std::optional<trade::CoverKind> which;
    if (reader.member("kind") != nullptr) which = cover();
    return CoverOff{std::move(part), which};
  }
  if (kind == "canopy-up") return CanopyUp{free_text(reader, "part")};
  if (kind == "canopy-down") return CanopyDown{};
  if (kind == "thermometer") return Thermometer{base::Celsius(reader.number("air", any_number))};
  if (kind == "gauge") {
    const base::Millimetres rain(reader.number("rain", any_number));
    return Gauge{rain, moment_of(reader, "since")};
  }
  if (kind != "struck") {
    reader.reading().add({"bad-entry", "", "an entry of kind \"" + kind + "\"",
                          "a kind that this version of the program knows",
                          "Use the version that wrote it, or a newer one."});
  }
  return Struck{};
}

}  // namespace

What what_of(const std::string& kind, const std::string& body, const std::string& source) {
  ParsedJson parsed = parse_json(body, {std::size_t{1} << 16, 8, false, false});
  if (!parsed.value) throw base::InputError(source, std::move(parsed.faults));
  Reading reading;
  ObjectReader reader(reading, *parsed.value, "", "entry");
  What what = read_what(kind, reader);
  reader.finish();
  if (!reading.faults().empty()) throw base::InputError(source, reading.take_faults());
  return what;
}

}  // namespace weatherstruck::files
