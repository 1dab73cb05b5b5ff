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
    told_from_.reset();
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
  told_from_.reset();
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
  const auto held = held_.find(question.key);
  const bool again = held != held_.end();
  if (again) {
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
  } else if (told_from_) {
    pending_.resize(std::min(*told_from_, pending_.size()));
  }
  if (again || told_from_) told_from_ = pending_.size();
  take(question, *std::move(answer));
  return true;
}

namespace {

std::string letters_of(std::string_view said) {
  std::string plain;
  for (const char c : said) {
    if (c >= 'A' && c <= 'Z') {
      plain += static_cast<char>(c - 'A' + 'a');
    } else if (c >= 'a' && c <= 'z') {
      plain += c;
    }
  }
  return plain;
}

template <std::size_t N>
bool is_one_of(const std::array<std::string_view, N>& ways, std::string_view said) {
  return std::find(ways.begin(), ways.end(), said) != ways.end();
}

/// Somebody who does not know takes what is usual.
bool does_not_know(std::string_view said) {
  constexpr std::array<std::string_view, 12> ways{"dunno",      "dontknow", "idontknow", "donotknow",
                                                  "notsure",    "noidea",   "normal",    "standard",
                                                  "anormalone", "usual",    "asusual",   "theusual"};
  return is_one_of(ways, letters_of(said));
}

/// Takes what stands in the brackets, where it is no answer of its own.
bool agrees(std::string_view said) {
  constexpr std::array<std::string_view, 10> ways{"yes",  "y",    "yep",       "ok",         "okay",
                                                  "fine", "same", "thatsfine", "thatsright", "right"};
  return is_one_of(ways, letters_of(said));
}

/// Without the words that make a figure a rough one: "about 40", "40ish", "2 hours or so".
std::string without_roughness(std::string_view said) {
  std::string text(said);
  for (const std::string_view opening :
       {"about ", "around ", "roughly ", "approx ", "maybe ", "say ", "probably ", "i think "}) {
    if (text.size() > opening.size() && letters_of(text.substr(0, opening.size())) == letters_of(opening) &&
        text[opening.size() - 1] == ' ')
      text.erase(0, opening.size());
  }
  for (const std::string_view ending : {"-ish", " ish", "ish", " or so", " roughly", " i think", " maybe"}) {
    if (text.size() > ending.size() && text.substr(text.size() - ending.size()) == ending)
      text.resize(text.size() - ending.size());
  }
  return text;
}

}  // namespace

/// As he said it; where that is no answer, what agreeing or rough words around a figure stand for.
std::optional<works::Refused> Talk::heard(const Hear& hear, const std::string* shown, std::string& taken) {
  auto refused = hear(taken);
  if (!refused) return {};
  std::string plainer = agrees(taken) && shown != nullptr ? *shown : without_roughness(taken);
  if (plainer == taken || hear(plainer)) return refused;
  taken = std::move(plainer);
  return {};
}

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
    std::string_view said = trimmed(text);
    if (const std::string plain = letters_of(said); plain.size() == said.size()) {
      if (plain == "quit" || plain == "exit") said = "quit";
      if (plain == "back") said = "back";
      if (plain == "help") said = "?";
    }
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
      const std::string usual;
      refused = heard(hear, again ? &before->second : question.usual.empty() ? nullptr : &usual, taken);
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
