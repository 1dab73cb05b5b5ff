#pragma once
// The words by which documents and JSON output name the closed lists of the trade. One table a list,
// read by the job reader, the job writer and the exports, and held against the JSON Schema by a test.
#include <array>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>

#include "weatherstruck/trade/kinds.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

template <class E>
struct Word {
  std::string_view text;
  E value;
};

/// The table of a list; one specialisation each, below.
template <class E>
[[nodiscard]] std::span<const Word<E>> words_of();

template <>
std::span<const Word<trade::Operation>> words_of<trade::Operation>();
template <>
std::span<const Word<trade::BrickKind>> words_of<trade::BrickKind>();
template <>
std::span<const Word<trade::Bond>> words_of<trade::Bond>();
template <>
std::span<const Word<trade::JointFinish>> words_of<trade::JointFinish>();
template <>
std::span<const Word<trade::MortarClass>> words_of<trade::MortarClass>();
template <>
std::span<const Word<trade::Binder>> words_of<trade::Binder>();
template <>
std::span<const Word<trade::ConcreteMix>> words_of<trade::ConcreteMix>();
template <>
std::span<const Word<trade::CementSpeed>> words_of<trade::CementSpeed>();
template <>
std::span<const Word<trade::Wetness>> words_of<trade::Wetness>();
template <>
std::span<const Word<trade::Soil>> words_of<trade::Soil>();
template <>
std::span<const Word<trade::CoverKind>> words_of<trade::CoverKind>();
template <>
std::span<const Word<trade::LimitSet>> words_of<trade::LimitSet>();
template <>
std::span<const Word<trade::ColdRule>> words_of<trade::ColdRule>();
template <>
std::span<const Word<trade::LimitClass>> words_of<trade::LimitClass>();
template <>
std::span<const Word<trade::Surface>> words_of<trade::Surface>();
template <>
std::span<const Word<trade::Frog>> words_of<trade::Frog>();
template <>
std::span<const Word<trade::MixerPlace>> words_of<trade::MixerPlace>();
template <>
std::span<const Word<works::WallEnd>> words_of<works::WallEnd>();
template <>
std::span<const Word<works::Side>> words_of<works::Side>();
template <>
std::span<const Word<works::Importance>> words_of<works::Importance>();
template <>
std::span<const Word<works::Fallback::Kind>> words_of<works::Fallback::Kind>();

/// The word of a value. @throws std::logic_error for a value that is in no table, which is a mistake here
template <class E>
[[nodiscard]] std::string word_for(E value) {
  for (const auto& word : words_of<E>()) {
    if (word.value == value) return std::string(word.text);
  }
  throw std::logic_error("a value of a closed list has no word");
}

}  // namespace weatherstruck::files
