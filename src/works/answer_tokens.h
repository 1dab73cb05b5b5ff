#pragma once
// An answer cut into numbers, words and signs. For the readers of answers only.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace weatherstruck::works {

struct AnswerToken {
  enum class Kind { number, word, sign };
  Kind kind = Kind::sign;
  std::string text;    ///< lower case (ASCII); of a sign one of . , : - + ' " / ( ) ° as "deg", × as "x"
  double value = 0;    ///< of a number
  int digits = 0;      ///< before the point
  bool whole = true;   ///< written without a point
  bool glued = false;  ///< stands against what comes before it
};

/// nullopt for bytes that are none of these, or for more than 40 tokens. Commas between thousands are
/// dropped.
[[nodiscard]] std::optional<std::vector<AnswerToken>> answer_tokens(std::string_view text);

/// Walks the tokens of one answer.
class AnswerWalk {
 public:
  explicit AnswerWalk(std::vector<AnswerToken> tokens) : tokens_(std::move(tokens)) {}
  [[nodiscard]] bool at_end() const { return at_ >= tokens_.size(); }
  [[nodiscard]] const AnswerToken* peek(std::size_t ahead = 0) const {
    return at_ + ahead < tokens_.size() ? &tokens_[at_ + ahead] : nullptr;
  }
  [[nodiscard]] bool is(std::string_view text, std::size_t ahead = 0) const {
    const AnswerToken* token = peek(ahead);
    return token != nullptr && token->kind != AnswerToken::Kind::number && token->text == text;
  }
  [[nodiscard]] bool is_number(std::size_t ahead = 0) const {
    const AnswerToken* token = peek(ahead);
    return token != nullptr && token->kind == AnswerToken::Kind::number;
  }
  bool take(std::string_view text) {
    if (!is(text)) return false;
    ++at_;
    return true;
  }
  template <class... Texts>
  bool take_any(Texts... texts) {
    return (take(texts) || ...);
  }
  std::optional<AnswerToken> number() {
    if (!is_number()) return {};
    return tokens_[at_++];
  }
  std::optional<std::string> word() {
    const AnswerToken* token = peek();
    if (token == nullptr || token->kind != AnswerToken::Kind::word) return {};
    return tokens_[at_++].text;
  }
  [[nodiscard]] std::size_t place() const { return at_; }
  void go_to(std::size_t place) { at_ = place; }
  void skip() { ++at_; }

 private:
  std::vector<AnswerToken> tokens_;
  std::size_t at_ = 0;
};

/// What cannot be cut up becomes a sign that no reader takes.
[[nodiscard]] AnswerWalk walk_through(std::string_view text);

/// 0 to 12 in letters, "none" being 0.
[[nodiscard]] std::optional<double> spelt_number(std::string_view word);
/// "3", "three", "a", "half a", "1 1/2", "two and a half"; nullopt, and nothing walked, where there is none.
[[nodiscard]] std::optional<double> spoken_number(AnswerWalk& at);

/// Without spaces at the ends.
[[nodiscard]] std::string_view trimmed_answer(std::string_view text);

}  // namespace weatherstruck::works
