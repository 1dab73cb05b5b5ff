#pragma once
// The site book of a kept job: what was said is read, shown back, and kept.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/works/book_words.h"
#include "weatherstruck/works/standing.h"

namespace weatherstruck::desk {

/// An entry ready to be kept, and how it reads.
struct Ready {
  works::Entry entry;
  std::string sentence;
  bool there = false;  ///< it is in the book already, or said before in the same text; the sentence says so
};

/// What a text comes to.
struct HeardText {
  std::vector<Ready> ready;
  std::vector<works::Heard> doubts;  ///< questions, and what was not understood
  /// What is then taken as done besides, since it has to come first: a sentence; empty where nothing is.
  std::string taken;
  /// The text as it was cut, in its order; a doubt names its place in it (works::Heard::piece).
  std::vector<std::string> pieces;
};

struct HearRequest {
  std::string text;
  base::Instant now;
  base::Currency currency;                    ///< of an amount of money without one
  std::optional<works::EntryKey> corrects{};  ///< the entry that the text stands in for
  const programme::Plan* plan = nullptr;      ///< the one in force, if any
  std::vector<works::Answer> answers{};       ///< to what was asked about its pieces
};

/// Reads what was said about a kept job. The key of an entry is made from what it says and when it happened,
/// without a clock time from its day, so that the same words sent again are the same entries. Another one of
/// the same day is said with "again", "another", "more" or a time. Where words fit several tasks or covers,
/// the one is taken that is in the book by the same words, else the only one that was open then, else the one
/// that the plan has then, and the sentence says why; what is left is a doubt.
[[nodiscard]] HeardText hear(const OpenJob& open, const works::Standing& standing,
                             const HearRequest& request);

/// The last plan kept of the job; nullopt where there is none.
[[nodiscard]] std::optional<programme::Plan> plan_in_force(Shelf& shelf, const OpenJob& open);

/// An entry that strikes out another.
[[nodiscard]] works::Entry strike(const works::EntryKey& corrects, base::Instant now);

struct KeptEntries {
  int added = 0;
  int there_already = 0;               ///< sent before
  std::vector<works::Remark> remarks;  ///< new ones that the fold makes of the book with them
};

/// All of them or none. `open` is brought up to date.
/// @throws base::InputError for an entry with faults
/// @throws record::RecordError; nothing is kept then
KeptEntries keep_entries(Shelf& shelf, OpenJob& open, const std::vector<works::Entry>& entries,
                         const files::ZoneSource& zones, base::Instant now);

/// The entries in the order noted, each on a line of words; a number in front by which it can be corrected.
struct BookLine {
  std::int64_t number = 0;  ///< from 1, in the order noted
  works::Entry entry;
  std::string words;
  bool counts = true;  ///< false: corrected or struck
};
[[nodiscard]] std::vector<BookLine> book_lines(const OpenJob& open, const works::Standing& standing,
                                               base::Instant now);

}  // namespace weatherstruck::desk
