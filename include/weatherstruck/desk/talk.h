#pragma once
// Asking a person one thing after another, at a terminal or from a prepared file. "back" goes to the question
// before, "quit" leaves, "?" explains, Enter takes what stands in brackets, and so do "yes" and "ok" where
// they are no answer themselves; "about 40" and "40ish" are 40. An answer that is not understood is told what
// would be, and the question comes again. A script may send him back to single questions that he names; what
// he said elsewhere is taken again without asking. Nothing is done with the answers here: whoever asks keeps
// them when all are there.
#include <cstddef>
#include <functional>
#include <iosfwd>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::desk {

struct Question {
  std::string key;    ///< unlike every other of the talk, the same from run to run: "bed-2-courses"
  std::string words;  ///< at most 70 columns
  std::string usual;  ///< what Enter stands for, in brackets; empty: an answer is needed
  std::string help;   ///< sentences for "?"
};

/// How a talk ended.
enum class TalkEnd {
  through,  ///< every question has its answer
  left,     ///< he said "quit"
  cut_off   ///< the input ended, or asked too much of a reader: nothing may be kept
};

/// One talk. A script asks in plain order, with loops and branches; going back runs it again from its top
/// with the answers that still hold, unheard. So a script must not do anything but ask, and must ask the same
/// again for the same answers.
class Talk {
 public:
  /// @param echo the answers come from a file: each is written behind its question, so that the whole reads
  ///   like a talk; and lines that open with "# " are passed over
  Talk(std::istream& in, std::ostream& out, bool echo) : in_(in), out_(out), echo_(echo) {}

  /// Runs a script to its end. What the script throws is passed on.
  [[nodiscard]] TalkEnd run(const std::function<void()>& script);

  /// Between questions: a heading, a paragraph, lines as they are. Written before the next question that he
  /// hears, or at the end.
  void heading(std::string_view words);
  void say(std::string_view words);
  void show(std::string_view lines);

  /// @param usual what Enter stands for; nullopt where an answer is needed
  /// @param judge says what is wrong with a value that was understood, the usual one too
  /// @param whole the value in words that `read` takes, for an answer of which a part may be said: they are
  ///   kept in place of what he said, so that another part can be said later
  template <class T>
  T ask(const Question& question, const std::function<works::Answer<T>(std::string_view)>& read,
        const std::optional<T>& usual = {},
        const std::function<std::optional<works::Refused>(const T&)>& judge = {},
        const std::function<std::string(const T&)>& whole = {}) {
    std::optional<T> taken;
    const auto hear = [&](std::string_view line) -> std::optional<works::Refused> {
      if (!line.empty()) {
        works::Answer<T> answer = read(line);
        if (auto* refused = std::get_if<works::Refused>(&answer)) return std::move(*refused);
        taken = std::get<T>(std::move(answer));
      } else if (usual) {
        taken = usual;
      } else {
        return works::Refused{"", "An answer is needed here; ? explains."};
      }
      auto refused = judge ? judge(*taken) : std::nullopt;
      whole_ = !refused && whole && !line.empty() ? std::optional(whole(*taken)) : std::nullopt;
      return refused;
    };
    converse(question, hear);
    return *std::move(taken);
  }

  /// What he said to this question before it was opened again.
  [[nodiscard]] std::optional<std::string> said_before(const std::string& key) const {
    const auto said = said_.find(key);
    return said == said_.end() || said->second.empty() ? std::nullopt : std::optional(said->second);
  }

  [[nodiscard]] std::size_t answered() const { return answers_.size(); }
  /// Keys of the questions that have an answer, in order.
  [[nodiscard]] const std::vector<std::string>& keys() const { return keys_; }

  /// Runs the script again and asks these once more, with what he said in the brackets; the rest keeps its
  /// answers as far as they still hold. To be called while an answer is read or judged.
  [[noreturn]] void reopen(std::vector<std::string> keys);
  /// Only questions whose keys pass are asked from here on; the usual answer of the rest is taken.
  void ask_only(std::function<bool(std::string_view key)> passes) { passes_ = std::move(passes); }
  /// The same, for a talk that is whole without the rest: what is said between questions stays, and what was
  /// passed over can be named and is asked then.
  void short_form(std::function<bool(std::string_view key)> passes) {
    ask_only(std::move(passes));
    short_ = true;
  }
  /// What was passed over in this run and stands as usual.
  struct Unasked {
    std::string key;
    std::string usual;
  };
  [[nodiscard]] const std::vector<Unasked>& unasked() const { return unasked_; }

 private:
  struct Back {};
  struct Reopened {
    std::vector<std::string> keys;
  };
  struct Ended {
    TalkEnd how;
  };
  /// Takes a line, or says what is allowed.
  using Hear = std::function<std::optional<works::Refused>(std::string_view)>;

  void converse(const Question& question, const Hear& hear);
  [[nodiscard]] bool passed_over(const std::string& key) const {
    return passes_ && !passes_(key) && named_.count(key) == 0;
  }
  [[nodiscard]] bool taken_unasked(const Question& question, const Hear& hear);
  void take(const Question& question, std::string answer);
  /// @param shown what Enter takes; nullptr: nothing
  [[nodiscard]] std::optional<works::Refused> heard(const Hear& hear, const std::string* shown,
                                                    std::string& taken);
  [[nodiscard]] std::string line();
  void prompt(const Question& question, const std::string& usual);
  [[nodiscard]] bool unheard() const { return next_ < answers_.size(); }

  std::istream& in_;
  std::ostream& out_;
  bool echo_;
  std::vector<std::string> answers_;                      ///< those that hold, in order
  std::vector<std::string> keys_;                         ///< of their questions
  std::map<std::string, std::string, std::less<>> said_;  ///< before he went back, by key
  std::map<std::string, std::string, std::less<>> held_;  ///< taken again without asking, by key
  std::function<bool(std::string_view)> passes_;
  bool short_ = false;
  std::set<std::string, std::less<>> named_;  ///< those that he asked to be asked
  std::vector<Unasked> unasked_;
  std::optional<std::string> whole_;
  std::string heading_;  ///< to be written before the next question or saying
  std::string pending_;  ///< to be written before the next question
  /// From where on pending_ belongs to an answer that was taken again without asking: it was told before.
  std::optional<std::size_t> told_from_;
  std::size_t next_ = 0;
  std::size_t lines_ = 0;  ///< read so far
};

}  // namespace weatherstruck::desk
