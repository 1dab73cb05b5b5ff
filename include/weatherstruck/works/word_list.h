#pragma once
// Dictated text cut into words and numbers, each ticked off once it has found its place. For this floor only.
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace weatherstruck::works {

struct Word {
  std::string text;   ///< lower case (ASCII)
  std::size_t begin;  ///< bytes of the source
  std::size_t end;
  std::optional<double> number;  ///< "3", "0.4", "1,000", "three", "twenty five"
  bool figure = false;           ///< written in figures
  bool used = false;
};

class WordList {
 public:
  explicit WordList(std::string_view source);

  [[nodiscard]] const std::string& source() const { return source_; }
  [[nodiscard]] std::size_t size() const { return words_.size(); }
  [[nodiscard]] const Word& at(std::size_t i) const { return words_[i]; }
  /// Empty beyond the end, and for words used already.
  [[nodiscard]] std::string_view text(std::size_t i) const;
  /// The number at i; nullopt beyond the end, for words and for what is used.
  [[nodiscard]] std::optional<double> number(std::size_t i) const;
  [[nodiscard]] bool is(std::size_t i, std::initializer_list<std::string_view> any) const;
  /// First unused word that is one of these.
  [[nodiscard]] std::optional<std::size_t> find(std::initializer_list<std::string_view> any) const;
  void use(std::size_t i, std::size_t count = 1);
  /// Uses the first of these; false where there is none.
  bool take(std::initializer_list<std::string_view> any);
  /// Unused words that carry meaning: without "the", "of", commas and the like.
  [[nodiscard]] std::vector<std::string> left_over() const;
  /// The source without the bytes of used words, runs of spaces one, punctuation at the ends gone.
  [[nodiscard]] std::string unused_source() const;

 private:
  void add(std::string_view source, std::size_t begin, std::size_t end);
  void join_numbers();

  std::string source_;
  std::vector<Word> words_;
};

/// Text without the first of these words at its front.
[[nodiscard]] std::string without_lead(std::string text, std::initializer_list<std::string_view> leads);

}  // namespace weatherstruck::works
