#include "log_photographs.h"

#include <fmt/format.h>

#include <algorithm>

namespace weatherstruck::app {

std::vector<desk::GivenPhotograph> given_photographs(const Arguments& arguments) {
  std::vector<desk::GivenPhotograph> given;
  const auto named = arguments.options.find("--photo");
  if (named == arguments.options.end()) return given;
  for (const std::string& path : named->second)
    given.push_back(desk::read_photograph(path));
  return given;
}

const desk::Ready& goes_with(const std::vector<desk::Ready>& ready) {
  const auto is_expense = [](const desk::Ready& one) {
    return std::holds_alternative<works::Expense>(one.entry.what);
  };
  if (ready.size() == 1) return ready.front();
  if (std::count_if(ready.begin(), ready.end(), is_expense) == 1)
    return *std::find_if(ready.begin(), ready.end(), is_expense);
  throw UsageError(
      fmt::format("--photo: found {} entries; allowed: one, or one expense among them. Say the others by "
                  "themselves, or put "
                  "the photograph with a line of the book: --photo FILE --line N.",
                  ready.size()));
}

std::string given_words(const std::vector<desk::GivenPhotograph>& given) {
  std::string out;
  for (const desk::GivenPhotograph& one : given) {
    out += fmt::format("{}{} ({}), {}", out.empty() ? "" : "; ", one.source.filename().string(),
                       desk::photograph_words(one.picture), record::mark_of(one.picture));
  }
  return out;
}

std::string kept_words(const desk::KeptPhotographs& kept) {
  std::string out = fmt::format("{} {}", kept.added, kept.added == 1 ? "photograph" : "photographs");
  if (kept.there_already > 0) out += fmt::format(", {} there already", kept.there_already);
  return out;
}

std::string photographs_of_line(const desk::PhotographsOf& photographs, const works::Entry& entry) {
  const auto its = photographs.find(entry.key);
  if (its == photographs.end() || std::holds_alternative<works::Expense>(entry.what)) return "";
  std::string out = its->second.size() == 1 ? " (photograph" : " (photographs";
  for (const record::Photograph& photograph : its->second)
    out += " " + record::mark_of(photograph);
  return out + ")";
}

}  // namespace weatherstruck::app
