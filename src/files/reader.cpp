#include "weatherstruck/files/reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/files/clock_text.h"

namespace weatherstruck::files {
namespace {

constexpr std::size_t most_faults = 100;
constexpr std::size_t longest_name = 40;

constexpr std::string_view name_words =
    "a short name: small letters, digits, dashes, a letter first, at most 40";
constexpr std::string_view material_words = "a key of the materials table";
constexpr std::string_view moment_words = "a date and clock time such as \"2026-02-09T05:30\"";

const Json& nothing() {
  static const Json empty = Json::object();
  return empty;
}

bool is_lower(char c) {
  return c >= 'a' && c <= 'z';
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_name(std::string_view text) {
  return !text.empty() && text.size() <= longest_name && is_lower(text[0]) &&
         std::all_of(text.begin(), text.end(), [](char c) { return is_lower(c) || is_digit(c) || c == '-'; });
}

bool is_table_key(std::string_view text) {
  return !text.empty() && text.size() <= 60 && std::all_of(text.begin(), text.end(), [](char c) {
    return is_lower(c) || (c >= 'A' && c <= 'Z') || is_digit(c) || c == '-' || c == '_' || c == '.' ||
           c == '/';
  });
}

// A name made of what was written, where enough of it is left.
std::optional<std::string> name_like(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (is_lower(small) || (is_digit(small) && !out.empty())) {
      out.push_back(small);
    } else if (!out.empty() && out.back() != '-') {
      out.push_back('-');
    }
  }
  out.resize(std::min(out.size(), longest_name));
  while (!out.empty() && out.back() == '-')
    out.pop_back();
  if (!is_name(out)) return {};
  return out;
}

std::string in_quotes(std::string_view text) {
  return fmt::format("\"{}\"", text);
}

std::string any_of(const std::vector<std::string>& words) {
  std::string out;
  for (const auto& word : words) {
    if (!out.empty()) out += ", ";
    out += in_quotes(word);
  }
  return out;
}

std::string range_text(const NumberRange& range) {
  auto out = fmt::format("{} to {}", base::plain_number(range.low, 6), base::plain_number(range.high, 6));
  if (!range.unit.empty()) out += fmt::format(" {}", range.unit);
  return out;
}

// Most numbers out of range are millimetres or minutes where metres or hours are meant.
std::string range_remedy(double value, const NumberRange& range) {
  const auto would_fit = [&range](double v) { return v >= range.low && v <= range.high; };
  if (range.unit == "m" && would_fit(value / 1000) && std::abs(value) >= 50) {
    return fmt::format("Lengths are in metres: write {} for {} mm.", base::plain_number(value / 1000, 6),
                       base::plain_number(value, 3));
  }
  if (range.unit == "hours" && would_fit(value / 60) && value >= 5) {
    return fmt::format("Durations are in hours: write \"{}:{:02}\" for {} minutes.",
                       static_cast<int>(value) / 60, static_cast<int>(value) % 60,
                       base::plain_number(value, 0));
  }
  return "Check the number.";
}

}  // namespace

void Reading::add(base::Fault fault) {
  if (faults_.size() > most_faults) return;
  if (faults_.size() == most_faults) {
    faults_.push_back({"too-many-faults", "", fmt::format("more than {} faults", most_faults),
                       "a document without faults", "Put these right first; the others are told then."});
    return;
  }
  faults_.push_back(std::move(fault));
}

ObjectReader::ObjectReader(Reading& reading, const Json& value, std::string pointer, std::string_view shape)
    : reading_(&reading),
      value_(value.is_object() ? &value : &nothing()),
      pointer_(std::move(pointer)),
      asked_(&reading.shapes()[std::string(shape)]),
      is_object_(value.is_object()) {
  if (!is_object_)
    fault("wrong-type", pointer_, shown(value), "an object", "Write it as { \"key\": value, ... }.");
}

void ObjectReader::fault(std::string code, std::string where, std::string found, std::string expected,
                         std::string remedy) {
  reading_->add(
      {std::move(code), std::move(where), std::move(found), std::move(expected), std::move(remedy)});
}

void ObjectReader::wrong_type(std::string_view key, const Json& value, std::string expected,
                              std::string remedy) {
  fault("wrong-type", place(key), shown(value), std::move(expected),
        value.is_null() ? "Write the value, or leave the key out." : std::move(remedy));
}

const Json* ObjectReader::member(std::string_view key, std::string_view expected) {
  asked_->emplace(key);
  const auto at = value_->find(std::string(key));
  if (at != value_->end()) return &*at;
  if (!expected.empty() && is_object_) {
    fault("missing-key", place(key), "nothing", std::string(expected), fmt::format("Put \"{}\" in.", key));
  }
  return nullptr;
}

double ObjectReader::number(std::string_view key, NumberRange range, std::optional<double> fallback) {
  const double stand_in = fallback.value_or(range.low);
  const auto expected = fmt::format("a number, {}", range_text(range));
  const Json* value = member(key, fallback ? "" : expected);
  if (value == nullptr) return stand_in;
  if (!value->is_number()) {
    const auto written =
        value->is_string() ? base::parse_number(value->get_ref<const std::string&>()) : std::nullopt;
    wrong_type(key, *value, expected,
               written ? "Take the quotes off the number." : "Write a number without quotes or unit.");
    return stand_in;
  }
  const double number = value->get<double>();
  if (number >= range.low && number <= range.high) return number;
  const auto unit = range.unit.empty() ? std::string() : fmt::format(" {}", range.unit);
  fault("out-of-range", place(key), shown(*value) + unit, range_text(range), range_remedy(number, range));
  return stand_in;
}

int ObjectReader::whole(std::string_view key, int low, int high, std::optional<int> fallback) {
  const std::size_t faults = reading_->faults().size();
  const NumberRange range{static_cast<double>(low), static_cast<double>(high), ""};
  const double number = this->number(key, range, fallback ? std::optional<double>(*fallback) : std::nullopt);
  if (faults == reading_->faults().size() && number != std::floor(number)) {
    fault("out-of-range", place(key), shown(*member(key)),
          fmt::format("a whole number, {}", range_text(range)), "Leave the decimals off.");
    return fallback.value_or(low);
  }
  return static_cast<int>(std::floor(number));
}

bool ObjectReader::truth(std::string_view key, bool fallback) {
  const Json* value = member(key);
  if (value == nullptr) return fallback;
  if (value->is_boolean()) return value->get<bool>();
  wrong_type(key, *value, "true or false", "Write true or false without quotes.");
  return fallback;
}

base::Metres ObjectReader::metres(std::string_view key, double low, double high,
                                  std::optional<base::Metres> fallback) {
  return base::Metres(
      number(key, {low, high, "m"}, fallback ? std::optional<double>(fallback->value()) : std::nullopt));
}

base::Hours ObjectReader::hours(std::string_view key, double low, double high,
                                std::optional<base::Hours> fallback) {
  const NumberRange range{low, high, "hours"};
  const Json* value = member(key);
  if (value == nullptr || !value->is_string()) {
    return base::Hours(
        number(key, range, fallback ? std::optional<double>(fallback->value()) : std::nullopt));
  }
  const auto stand_in = fallback.value_or(base::Hours(low));
  const auto read = parse_duration(value->get_ref<const std::string&>());
  if (!read) {
    wrong_type(key, *value, fmt::format("hours as a number or as \"h:mm\", {}", range_text(range)),
               "Write 1.5 or \"1:30\" for an hour and a half.");
    return stand_in;
  }
  if (read->value() >= low && read->value() <= high) return *read;
  fault("out-of-range", place(key), shown(*value) + " hours", range_text(range), "Check the duration.");
  return stand_in;
}

std::string ObjectReader::text(std::string_view key, std::size_t longest,
                               std::optional<std::string_view> fallback) {
  std::string stand_in(fallback.value_or("-"));
  const Json* value = member(key, fallback ? "" : "a text");
  if (value == nullptr) return stand_in;
  if (!value->is_string()) {
    wrong_type(key, *value, "a text", "Put it in double quotes.");
    return stand_in;
  }
  const auto& text = value->get_ref<const std::string&>();
  const auto characters = static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
  const bool control = std::any_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 || byte == 0x7F;
  });
  if (control) {
    fault("bad-text", place(key), shown(*value), "one line without control characters",
          "Write it on one line.");
    return stand_in;
  }
  if (characters > longest || (text.empty() && !fallback)) {
    fault("bad-text", place(key), text.empty() ? "an empty text" : fmt::format("{} characters", characters),
          fmt::format("{} to {} characters", fallback ? 0 : 1, longest),
          text.empty() ? "Write something." : "Shorten it.");
    return stand_in;
  }
  return text;
}

works::Name ObjectReader::name(std::string_view key, std::optional<std::string_view> fallback) {
  std::string stand_in(fallback.value_or("x"));
  const Json* value = member(key, fallback ? "" : name_words);
  if (value == nullptr) return stand_in;
  if (value->is_string() && is_name(value->get_ref<const std::string&>())) return value->get<std::string>();
  const auto like = value->is_string() ? name_like(value->get_ref<const std::string&>()) : std::nullopt;
  fault("bad-name", place(key), shown(*value), std::string(name_words),
        like ? fmt::format("Write \"{}\".", *like) : "Write a name such as \"long-bed\".");
  return stand_in;
}

std::string ObjectReader::table_key(std::string_view key) {
  const Json* value = member(key, material_words);
  if (value == nullptr) return "x";
  if (value->is_string() && is_table_key(value->get_ref<const std::string&>()))
    return value->get<std::string>();
  fault("bad-name", place(key), shown(*value), std::string(material_words),
        "Write a key such as \"cement\".");
  return "x";
}

std::vector<works::Name> ObjectReader::names(std::string_view key, std::size_t most) {
  std::vector<works::Name> out;
  const auto& entries = list(key, most);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (entries[i].is_string() && is_name(entries[i].get_ref<const std::string&>())) {
      out.push_back(entries[i].get<std::string>());
    } else {
      fault("bad-name", pointer_to(place(key), i), shown(entries[i]), "a name of this job",
            "Write the name as it stands where it is given.");
    }
  }
  return out;
}

std::vector<std::string> ObjectReader::table_keys(std::string_view key, std::size_t most) {
  std::vector<std::string> out;
  const auto& entries = list(key, most);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (entries[i].is_string() && is_table_key(entries[i].get_ref<const std::string&>())) {
      out.push_back(entries[i].get<std::string>());
    } else {
      fault("bad-name", pointer_to(place(key), i), shown(entries[i]), std::string(material_words),
            "Write a key such as \"cement\".");
    }
  }
  return out;
}

std::optional<works::DaySpan> ObjectReader::span_at(const Json& value, const std::string& where) {
  const auto read = value.is_string() ? parse_span(value.get_ref<const std::string&>()) : std::nullopt;
  if (!read) {
    fault("bad-span", where, shown(value),
          "a stretch of the day, the earlier time first, such as \"08:00-18:00\"",
          "Write it as hh:mm-hh:mm; a day ends at 24:00.");
  }
  return read;
}

works::DaySpan ObjectReader::span(std::string_view key, works::DaySpan fallback) {
  const Json* value = member(key);
  return value == nullptr ? fallback : span_at(*value, place(key)).value_or(fallback);
}

std::vector<works::DaySpan> ObjectReader::spans(std::string_view key, std::vector<works::DaySpan> fallback) {
  if (member(key) == nullptr) return fallback;
  std::vector<works::DaySpan> out;
  const auto& entries = list(key, 6);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto where = pointer_to(place(key), i);
    const auto read = span_at(entries[i], where);
    if (!read) continue;
    if (!out.empty() && read->from < out.back().to) {
      fault("bad-span", where, shown(entries[i]),
            fmt::format("a stretch that begins at or after the end of {}", span_text(out.back())),
            "Put the stretches in order and apart.");
      continue;
    }
    out.push_back(*read);
  }
  return out;
}

base::Instant ObjectReader::moment(std::string_view key, const base::Zone& zone) {
  const base::Instant stand_in{};
  const Json* value = member(key, moment_words);
  if (value == nullptr) return stand_in;
  if (!value->is_string()) {
    wrong_type(key, *value, std::string(moment_words), "Put it in double quotes.");
    return stand_in;
  }
  auto read = read_moment(value->get_ref<const std::string&>(), zone);
  if (read.moment) return *read.moment;
  read.fault->place = place(key);
  if (read.fault->code == "bad-time") read.fault->found = shown(*value);
  reading_->add(std::move(*read.fault));
  return stand_in;
}

std::optional<base::Money> ObjectReader::money(std::string_view key) {
  const Json* value = member(key);
  if (value == nullptr) return {};
  auto read = value->is_string() ? parse_money(value->get_ref<const std::string&>()) : std::nullopt;
  if (!read) {
    fault("bad-money", place(key), shown(*value), "an amount and a currency such as \"35.00 GBP\"",
          "Write the amount without thousands, a space, and the three letters of the currency.");
  }
  return read;
}

std::optional<std::size_t> ObjectReader::word_position(std::string_view key,
                                                       const std::vector<std::string>& known, bool needed) {
  const auto expected = "one of " + any_of(known);
  const Json* value = member(key, needed ? expected : "");
  if (value == nullptr) return {};
  std::optional<std::string> nearest;
  if (value->is_string()) {
    const auto& written = value->get_ref<const std::string&>();
    const auto at = std::find(known.begin(), known.end(), written);
    if (at != known.end()) return static_cast<std::size_t>(at - known.begin());
    if (written.size() <= longest_name) nearest = base::nearest_name(written, known);
  }
  fault("bad-word", place(key), shown(*value), expected,
        nearest ? fmt::format("Write \"{}\", if that is meant.", *nearest) : "Write one of these words.");
  return {};
}

const Json::array_t& ObjectReader::list(std::string_view key, std::size_t most, std::size_t least) {
  static const Json::array_t empty;
  const Json* value = member(key, least > 0 ? "a list" : "");
  if (value == nullptr) return empty;
  if (!value->is_array()) {
    wrong_type(key, *value, "a list", "Put it in square brackets, even one alone.");
    return empty;
  }
  const auto& entries = value->get_ref<const Json::array_t&>();
  if (entries.size() > most || entries.size() < least) {
    fault(entries.size() > most ? "too-many" : "too-few", place(key), shown(*value),
          least > 0 ? fmt::format("{} to {} of them", least, most) : fmt::format("at most {} of them", most),
          entries.size() > most ? "Split the job, or take some out." : "Put one in.");
    return empty;
  }
  return entries;
}

void ObjectReader::finish() {
  std::vector<std::string> free;
  for (const auto& key : *asked_) {
    if (!value_->contains(key)) free.push_back(key);
  }
  for (const auto& [key, value] : value_->items()) {
    if (asked_->contains(key)) continue;
    const auto nearest = key.size() <= longest_name ? base::nearest_name(key, free) : std::nullopt;
    const std::string found = shown(Json(key));
    fault("unknown-key", place(key), "the key " + found,
          free.empty() ? "no further key here" : "here also " + any_of(free),
          nearest ? fmt::format("Did you mean \"{}\"?", *nearest)
                  : "Take it out, or move it where it belongs.");
  }
}

}  // namespace weatherstruck::files
