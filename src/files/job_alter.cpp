#include "weatherstruck/files/job_alter.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "member_change.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/job_writer.h"
#include "weatherstruck/files/words.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/turn.h"
#include "weatherstruck/works/without_part.h"

namespace weatherstruck::files {
namespace {

using base::Fault;

class OneChange {
 public:
  OneChange(works::Job& job, const std::string& text) : job_(job), text_(text), words_(words_in(text)) {
    words_.erase(std::remove_if(words_.begin(), words_.end(),
                                [](const std::string& w) { return w == "the" || w == "of" || w == "="; }),
                 words_.end());
  }

  std::variant<Alteration, Fault> make() {
    if (words_.empty())
      return fault("unclear-change", "nothing", "a part and what becomes of it", change_example());
    std::size_t at = 0;
    bool turning = false;
    bool leaving_out = false;
    if (words_[0] == "turn") {
      turning = true;
      at = 1;
    } else if (words_[0] == "without") {
      leaving_out = true;
      at = 1;
    } else if (words_[0] == "leave" && words_.size() > 1 && words_[1] == "out") {
      leaving_out = true;
      at = 2;
    }
    const std::optional<works::Name> part = named(at);
    if (!part) return no_such_part(at);
    if (at < words_.size() && (words_[at] == "turn" || words_[at] == "turned")) {
      turning = true;
      ++at;
    }
    rest_.assign(words_.begin() + static_cast<std::ptrdiff_t>(at), words_.end());
    if (turning) return turn(*part);
    if (leaving_out) return leave_out(*part);
    for (const auto& word : words_of<works::Importance>()) {
      const bool with_key = rest_.size() == 2 && rest_[0] == "importance" && rest_[1] == word.text;
      if (with_key || (rest_.size() == 1 && rest_[0] == word.text)) return weigh(*part, word.value);
    }
    return change_member(job_, *part, std::move(rest_), text_);
  }

 private:
  Fault fault(std::string code, std::string found, std::string allowed, std::string remedy) const {
    return {std::move(code), "\"" + text_ + "\"", std::move(found), std::move(allowed), std::move(remedy)};
  }

  /// The longest run of words that is a part's name, and the place behind it.
  std::optional<works::Name> named(std::size_t& at) const {
    constexpr std::size_t most = 5;
    for (std::size_t end = std::min(words_.size(), at + most); end > at; --end) {
      const std::string name = joined(words_, at, end, '-');
      for (const works::Part& part : job_.parts) {
        if (works::name_of(part) != name) continue;
        at = end;
        return name;
      }
    }
    return {};
  }

  Fault no_such_part(std::size_t at) const {
    Words known;
    for (const works::Part& part : job_.parts)
      known.push_back(works::name_of(part));
    const std::string said = at < words_.size() ? words_[at] : "";
    const works::Expansion expansion = works::expand(job_);
    works::Name of;
    for (const auto& footing : expansion.footings)
      if (footing.shape.name == said) of = footing.of;
    for (const auto& wall : expansion.walls)
      if (wall.shape.name == said) of = wall.of;
    if (!of.empty())
      return fault("no-such-part", "\"" + said + "\", a piece of the " + of,
                   "a part as the job has it: " + base::join_and(known),
                   "Change the " + of + "; its pieces follow.");
    const auto near = base::nearest_name(said, known);
    return fault("no-such-part", said.empty() ? "no part" : "no part \"" + said + "\"",
                 "a part of the job: " + base::join_and(known),
                 near ? "Perhaps \"" + *near + "\" is meant." : change_example());
  }

  std::variant<Alteration, Fault> turn(const works::Name& part) {
    works::Quarter quarter = works::Quarter::right;
    if (rest_ == Words{"left"}) {
      quarter = works::Quarter::left;
    } else if (!rest_.empty() && rest_ != Words{"right"}) {
      return fault("unclear-change", joined(rest_), "left, right or nothing behind it",
                   "Say \"turn " + part + " left\".");
    }
    auto outcome = works::turn(job_, part, quarter);
    if (auto* refused = std::get_if<Fault>(&outcome)) {
      refused->place = "\"" + text_ + "\"";
      return std::move(*refused);
    }
    job_ = std::move(std::get<works::Turned>(outcome).job);
    const char* way = quarter == works::Quarter::right ? "right" : "left";
    return Alteration{part, std::string(altered_by_turning),
                      part + ": turned by a quarter to the " + std::string(way)};
  }

  std::variant<Alteration, Fault> leave_out(const works::Name& part) {
    if (!rest_.empty())
      return fault("unclear-change", joined(rest_), "nothing behind the part",
                   "Say \"without " + part + "\".");
    std::optional<works::Job> less = works::without_part(job_, part);
    if (!less)
      return fault("cannot-leave-out", "the " + part + ", which other work needs, or which is all there is",
                   "a part that nothing stands on and nothing names",
                   "Leave out what stands on it, or change the job's document.");
    job_ = std::move(*less);
    return Alteration{part, std::string(altered_by_leaving_out), part + ": not built"};
  }

  std::variant<Alteration, Fault> weigh(const works::Name& part, works::Importance importance) {
    const auto about = [&](const works::PartImportance& one) { return one.part == part; };
    const auto found = std::find_if(job_.importance.begin(), job_.importance.end(), about);
    const works::Importance was =
        found == job_.importance.end() ? works::Importance::must : found->importance;
    if (was == importance) return no_change(text_, part, std::string(altered_importance), word_for(was));
    if (found != job_.importance.end()) job_.importance.erase(found);
    if (importance != works::Importance::must) job_.importance.push_back({part, importance});
    return Alteration{part, std::string(altered_importance),
                      fmt::format("{}: {} instead of {}", part, word_for(importance), word_for(was))};
  }

  works::Job& job_;
  const std::string& text_;
  Words words_;
  Words rest_;  ///< behind the part
};

/// "/parts/1/courses" is "bed: courses" to whoever wrote no document.
std::string place_in(const works::Job& job, const std::string& pointer) {
  constexpr std::string_view parts = "/parts/";
  if (pointer.rfind(parts, 0) != 0) return pointer;
  const std::size_t slash = pointer.find('/', parts.size());
  const auto index = base::parse_number(pointer.substr(parts.size(), slash - parts.size()));
  if (!index || *index < 0 || *index >= static_cast<double>(job.parts.size())) return pointer;
  std::string place = works::name_of(job.parts[static_cast<std::size_t>(*index)]);
  if (slash != std::string::npos) place += ": " + spaced(pointer.substr(slash + 1));
  return place;
}

}  // namespace

std::vector<std::string> changes_said(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  std::string open;
  const auto close = [&] {
    if (!words_in(open).empty()) out.push_back(joined(words_in(open)));
    open.clear();
  };
  for (const std::string& word : words) {
    const bool by_itself = word.find(' ') != std::string::npos;
    if (by_itself) close();
    for (const char c : word) {
      if (c == ',' || c == ';') {
        close();
      } else {
        open += c;
      }
    }
    open += ' ';
    if (by_itself) close();
  }
  close();
  return out;
}

std::variant<Altered, base::Faults> alter_job(const works::Job& job, const std::vector<std::string>& changes,
                                              const ZoneSource& zones) {
  Altered out{job, {}, {}};
  base::Faults faults;
  for (const std::string& text : changes) {
    auto outcome = OneChange(out.job, text).make();
    if (auto* fault = std::get_if<Fault>(&outcome)) {
      faults.push_back(std::move(*fault));
    } else {
      out.changes.push_back(std::get<Alteration>(std::move(outcome)));
    }
  }
  if (!faults.empty()) return faults;
  // The one check of a document, so that nothing can be tried that could not be kept.
  JobRead read = read_job(write_job(out.job), zones);
  for (Fault& fault : read.faults)
    fault.place = place_in(out.job, fault.place);
  if (!read.faults.empty()) return std::move(read.faults);
  out.job = std::move(*read.job);
  for (Fault& advice : read.advice) {
    advice.place = place_in(out.job, advice.place);
    out.advice.push_back(std::move(advice));
  }
  return out;
}

}  // namespace weatherstruck::files
