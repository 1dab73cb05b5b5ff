#pragma once
// Photographs that go with lines of the book of a kept job: given, kept, and shown as receipts.
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "weatherstruck/desk/shelf.h"
#include "weatherstruck/works/book.h"

namespace weatherstruck::desk {

/// A picture that was read and is one.
struct GivenPhotograph {
  std::filesystem::path source;
  std::string bytes;
  record::Photograph picture;  ///< of no entry yet
};

/// Reads it whole. @throws base::InputError "no-such-file", "not-a-file", "unreadable", "too-large",
/// "no-picture"
[[nodiscard]] GivenPhotograph read_photograph(const std::filesystem::path& path);

struct KeptPhotographs {
  int added = 0;
  int there_already = 0;
};

/// Keeps them with the entry of that key: all or none, together with whatever else is written in the same
/// Store::in_one().
/// @pre open.kept, and the key is in the book
/// @throws record::RecordError
KeptPhotographs keep_photographs(Shelf& shelf, const OpenJob& open, const works::EntryKey& key,
                                 const std::vector<GivenPhotograph>& given, base::Instant now);

/// Of each entry its own and those of every entry that it stands in for, in the order kept; entries without
/// any are left out.
using PhotographsOf = std::map<works::EntryKey, std::vector<record::Photograph>>;
[[nodiscard]] PhotographsOf photographs_of(Shelf& shelf, const OpenJob& open);

/// The book as it is shown and billed: an expense whose receipt was photographed has the photograph's mark as
/// its receipt, behind its number if it has one ("4711, photograph 3fa291c0"). Not to be kept.
[[nodiscard]] works::Book with_receipts(const works::Book& book, const PhotographsOf& photographs);

/// "JPEG, 2345 kB": what it is, in whole kilobytes from 1.
[[nodiscard]] std::string photograph_words(const record::Photograph& photograph);

}  // namespace weatherstruck::desk
