#include "weatherstruck/files/json.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "json_scanner.h"

namespace weatherstruck::files {
namespace {

// Recursive descent; the nesting cap bounds the recursion.
class Parser {
 public:
  Parser(std::string_view text, const JsonLimits& limits) : in_(text, limits.comments), limits_(limits) {}

  ParsedJson run() {
    ParsedJson out;
    try {
      Json value = document();
      if (in_.faults().empty()) out.value = std::move(value);
    } catch (const StopReading&) {
    }
    out.faults = std::move(in_.faults());
    out.lines = std::move(lines_);
    return out;
  }

 private:
  using Members = Json::object_t::Container;

  Json document() {
    in_.skip_space();
    if (in_.done()) {
      in_.note({"empty-input", in_.here(), "no text", "one JSON value",
                "Check that the file was written and is the right one."});
      throw StopReading();
    }
    Json value = read_value(0);
    in_.skip_space();
    if (!in_.done()) in_.broken(in_.token(), "the end of the text", "Take out what follows the document.");
    return value;
  }

  Json read_value(int depth) {
    if (limits_.keep_lines) lines_.emplace(pointer_, in_.line());
    switch (in_.peek()) {
      case '{':
        return read_object(depth + 1);
      case '[':
        return read_list(depth + 1);
      case '"':
        return Json(in_.read_string());
      default:
        return in_.read_bare();
    }
  }

  void open(int depth) {
    if (depth > limits_.deepest) {
      in_.note({"too-deep", in_.here(), fmt::format("{} objects and lists within each other", depth),
                fmt::format("at most {}", limits_.deepest), "Check that this is the right file."});
      throw StopReading();
    }
    in_.next();
    in_.skip_space();
  }

  // After a member of an object or list: true where another follows.
  bool another(char closing, std::size_t opened_line) {
    in_.skip_space();
    if (in_.peek() == closing) {
      in_.next();
      return false;
    }
    if (in_.done()) {
      in_.broken(in_.token(), fmt::format("`,` or `{}`", closing),
                 fmt::format("Close what line {} opens with `{}`.", opened_line, closing));
    }
    if (in_.peek() != ',')
      in_.broken(in_.token(), fmt::format("`,` or `{}`", closing),
                 "Put in the comma, or what is missing, before it.");
    in_.skip_comma(closing);
    return true;
  }

  Json read_list(int depth) {
    const std::size_t opened = in_.line();
    open(depth);
    Json::array_t list;
    if (in_.peek() == ']') {
      in_.next();
      return Json(std::move(list));
    }
    const std::size_t length = pointer_.size();
    do {
      pointer_ = pointer_to(std::string_view(pointer_).substr(0, length), list.size());
      list.push_back(read_value(depth));
      pointer_.resize(length);
    } while (another(']', opened));
    return Json(std::move(list));
  }

  Json read_object(int depth) {
    const std::size_t opened = in_.line();
    open(depth);
    Json::object_t object;
    std::vector<std::size_t> key_lines;
    if (in_.peek() == '}') {
      in_.next();
      return Json(std::move(object));
    }
    const std::size_t length = pointer_.size();
    do {
      if (in_.peek() != '"')
        in_.broken(in_.token(), "a key in double quotes",
                   in_.done() ? "Close what is open." : "Write the key as \"key\".");
      key_lines.push_back(in_.line());
      std::string key = in_.read_string();
      in_.skip_space();
      if (in_.peek() != ':')
        in_.broken(in_.token(), fmt::format("`:` after the key \"{}\"", shortened(key, shown_columns)),
                   "Put the colon in.");
      in_.next();
      in_.skip_space();
      pointer_ = pointer_to(std::string_view(pointer_).substr(0, length), key);
      Json value = read_value(depth);
      pointer_.resize(length);
      // Straight to the list beneath: the map's own insert looks through all keys, which a file of
      // a million keys would make dear. Equal keys are looked for once, below.
      static_cast<Members&>(object).emplace_back(std::move(key), std::move(value));
    } while (another('}', opened));
    note_duplicates(object, key_lines);
    return Json(std::move(object));
  }

  void note_duplicates(const Members& object, const std::vector<std::size_t>& key_lines) {
    std::vector<std::size_t> order(object.size());
    for (std::size_t i = 0; i < order.size(); ++i)
      order[i] = i;
    std::sort(order.begin(), order.end(), [&object](std::size_t a, std::size_t b) {
      const int compared = object[a].first.compare(object[b].first);
      return compared != 0 ? compared < 0 : a < b;
    });
    std::vector<std::pair<std::size_t, std::size_t>> pairs;  // later, earlier
    for (std::size_t i = 1; i < order.size(); ++i) {
      if (object[order[i]].first == object[order[i - 1]].first) pairs.emplace_back(order[i], order[i - 1]);
    }
    std::sort(pairs.begin(), pairs.end());
    for (const auto& [later, earlier] : pairs) {
      in_.note(
          {"duplicate-key", pointer_to(pointer_, object[later].first),
           key_lines[later] == key_lines[earlier]
               ? fmt::format("the key twice on line {}", key_lines[later])
               : fmt::format("the key on line {} and again on line {}", key_lines[earlier], key_lines[later]),
           "each key once", "Take one of the two out."});
    }
  }

  JsonScanner in_;
  JsonLimits limits_;
  std::string pointer_;
  JsonLines lines_;
};

}  // namespace

JsonLimits JsonLimits::job_document() {
  return {std::size_t{1} << 20, 64, true, true};
}
JsonLimits JsonLimits::forecast() {
  return {};
}

ParsedJson parse_json(std::string_view text, const JsonLimits& limits) {
  if (text.size() > limits.most_bytes) {
    return {{},
            {{"too-big", "line 1", fmt::format("{} bytes", text.size()),
              fmt::format("at most {} bytes", limits.most_bytes), "Check that this is the right file."}},
            {}};
  }
  return Parser(text, limits).run();
}

std::string pointer_to(std::string_view pointer, std::string_view key) {
  std::string out(pointer);
  out.push_back('/');
  for (const char c : key) {
    if (c == '~') {
      out += "~0";
    } else if (c == '/') {
      out += "~1";
    } else {
      out.push_back(c);
    }
  }
  return out;
}

std::string pointer_to(std::string_view pointer, std::size_t position) {
  return fmt::format("{}/{}", pointer, position);
}

std::string shown(const Json& value) {
  if (value.is_array()) return value.empty() ? "an empty list" : fmt::format("a list of {}", value.size());
  if (value.is_object()) return value.empty() ? "an empty object" : "an object";
  return shortened(value.dump(-1, ' ', false, Json::error_handler_t::replace), shown_columns);
}

}  // namespace weatherstruck::files
