#include "weatherstruck/desk/talk.h"

#include <algorithm>
#include <array>
#include <istream>
#include <ostream>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/render/page.h"

namespace weatherstruck::desk {
namespace {

constexpr std::size_t longest_line = 1000;
constexpr std::size_t most_columns = 70;
/// More than anybody types; a file without end is not read for ever.
constexpr std::size_t most_lines = 5000;

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
    text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
    text.remove_suffix(1);
  return text;
}

/// Fit for a screen: what is no text becomes "?".
std::string showable(std::string_view line) {
  if (base::first_invalid_utf8(line)) return "(bytes that are no text)";
  std::string out(line);
  for (char& c : out) {
    if (static_cast<unsigned char>(c) < 32 || c == '\x7f') c = '?';
  }
  return out;
}

std::string paragraph(std::string_view words, std::size_t indent = 0) {
  render::Page page;
  page.text(words, indent);
  return page.str();
}

}  // namespace

TalkEnd Talk::run(const std::function<void()>& script) {
  while (true) {
    next_ = 0;
    unasked_.clear();
    heading_.clear();
    try {
      script();
      out_ << pending_;
      pending_.clear();
      return TalkEnd::through;
    } catch (const Back&) {
      bool heard = false;
      while (!heard && !keys_.empty()) {
        heard = !passed_over(keys_.back());
        if (heard) said_[keys_.back()] = answers_.back();
        keys_.pop_back();
        answers_.pop_back();
      }
      pending_.clear();
    } catch (const Reopened& reopened) {
      for (std::size_t i = 0; i < keys_.size(); ++i) {
        const bool again =
            std::find(reopened.keys.begin(), reopened.keys.end(), keys_[i]) != reopened.keys.end();
        (again ? said_ : held_)[keys_[i]] = answers_[i];
      }
      named_.insert(reopened.keys.begin(), reopened.keys.end());
      keys_.clear();
      answers_.clear();
      pending_.clear();
    } catch (const Ended& ended) {
      return ended.how;
    }
  }
}

void Talk::heading(std::string_view words) {
  if (!unheard()) heading_ = "\n" + std::string(words) + "\n";
}

void Talk::say(std::string_view words) {
  if (!unheard()) pending_ += std::exchange(heading_, {}) + paragraph(words);
}

void Talk::show(std::string_view lines) {
  if (!unheard()) pending_ += std::exchange(heading_, {}) + std::string(lines);
}

void Talk::reopen(std::vector<std::string> keys) {
  throw Reopened{std::move(keys)};
}

std::string Talk::line() {
  while (true) {
    std::string text;
    bool any = false;
    // By characters, so that a line without end takes no more room than the longest that is read.
    for (int c = in_.get(); c != std::char_traits<char>::eof(); c = in_.get()) {
      any = true;
      if (c == '\n') break;
      if (text.size() <= longest_line) text += static_cast<char>(c);
    }
    if (!any || ++lines_ > most_lines) throw Ended{TalkEnd::cut_off};
    if (echo_ && text.rfind("# ", 0) == 0) continue;
    return text;
  }
}

void Talk::prompt(const Question& question, const std::string& usual) {
  out_ << std::exchange(pending_, {}) << std::exchange(heading_, {});
  out_ << paragraph(usual.empty() ? question.words : question.words + " [" + showable(usual) + "]") << "> ";
  out_.flush();
}

void Talk::take(const Question& question, std::string answer) {
  answers_.push_back(std::move(answer));
  keys_.push_back(question.key);
  ++next_;
}

bool Talk::taken_unasked(const Question& question, const Hear& hear) {
  std::optional<std::string> answer;
  if (const auto held = held_.find(question.key); held != held_.end()) {
    answer = held->second;
    held_.erase(held);
  } else if (passed_over(question.key)) {
    answer.emplace();
  }
  if (!answer) return false;
  if (hear(*answer)) {
    // It holds no more, since something before it was changed.
    said_[question.key] = *answer;
    return false;
  }
  if (!short_) {
    pending_.clear();
    heading_.clear();
  }
  take(question, *std::move(answer));
  return true;
}

namespace {

/// Somebody who does not know takes what is usual.
bool does_not_know(std::string_view said) {
  std::string plain;
  for (const char c : said) {
    if (c >= 'A' && c <= 'Z') {
      plain += static_cast<char>(c - 'A' + 'a');
    } else if (c >= 'a' && c <= 'z') {
      plain += c;
    }
  }
  constexpr std::array<std::string_view, 8> ways{"dunno",   "dontknow", "idontknow", "donotknow",
                                                 "notsure", "noidea",   "usual",     "asusual"};
  return std::find(ways.begin(), ways.end(), plain) != ways.end();
}

}  // namespace

void Talk::converse(const Question& question, const Hear& hear) {
  if (base::display_width(question.words) > most_columns)
    throw std::logic_error("a question is too long: " + question.key);
  if (passed_over(question.key)) unasked_.push_back({question.key, question.usual});
  if (unheard()) {
    if (hear(answers_[next_])) throw std::logic_error("an answer that held holds no more: " + question.key);
    ++next_;
    return;
  }
  if (taken_unasked(question, hear)) return;
  while (true) {
    const auto before = said_.find(question.key);
    const bool again = before != said_.end() && !before->second.empty();
    prompt(question, again ? before->second : question.usual);
    const std::string text = line();
    const std::string_view said = trimmed(text);
    if (echo_) out_ << showable(said.substr(0, longest_line)) << '\n';
    if (said == "quit") throw Ended{TalkEnd::left};
    if (said == "back") {
      if (!answers_.empty()) throw Back{};
      out_ << paragraph("This is the first question; \"quit\" leaves.", 2);
      continue;
    }
    if (said == "?") {
      out_ << paragraph(question.help, 2);
      out_ << paragraph("\"back\" goes to the question before, \"quit\" leaves with nothing kept.", 2);
      continue;
    }
    std::string taken(said.empty() && again ? std::string_view(before->second) : said);
    if (does_not_know(said)) {
      if (question.usual.empty()) {
        out_ << paragraph(question.help, 2);
        continue;
      }
      taken.clear();
      out_ << paragraph("Then " + question.usual + ".", 2);
    }
    std::optional<works::Refused> refused;
    if (text.size() > longest_line) {
      refused = works::Refused{"at most " + std::to_string(longest_line) + " characters"};
    } else {
      refused = hear(taken);
    }
    if (!refused) {
      if (again) said_.erase(before);
      take(question, whole_ ? *whole_ : taken);
      return;
    }
    const std::string why = refused->why.empty() ? "Not understood." : refused->why;
    out_ << paragraph(refused->allowed.empty() ? why : why + " Allowed: " + refused->allowed + ".", 2);
  }
}

}  // namespace weatherstruck::desk
