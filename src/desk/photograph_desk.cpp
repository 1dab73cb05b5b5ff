#include "weatherstruck/desk/photograph_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <stdexcept>
#include <utility>

#include "weatherstruck/desk/file_text.h"

namespace weatherstruck::desk {
namespace {

constexpr std::size_t bytes_in_kb = 1000;
constexpr std::size_t bytes_in_mb = 1'000'000;

std::string marks_of(const std::vector<record::Photograph>& photographs) {
  std::string out = photographs.size() == 1 ? "photograph " : "photographs ";
  for (std::size_t i = 0; i < photographs.size(); ++i)
    out += (i == 0 ? "" : " ") + record::mark_of(photographs[i]);
  return out;
}

}  // namespace

GivenPhotograph read_photograph(const std::filesystem::path& path) {
  const std::string allowed =
      fmt::format("a photograph or scan of at most {} MB: {}", record::most_photograph_bytes / bytes_in_mb,
                  record::photograph_kinds_allowed());
  std::error_code ignored;
  const auto refuse = [&](std::string code, std::string found, std::string remedy) {
    throw base::InputError(path.string(),
                           {{std::move(code), "", std::move(found), allowed, std::move(remedy)}});
  };
  // A pipe would be waited for without end.
  if (const auto status = std::filesystem::status(path, ignored);
      std::filesystem::exists(status) && status.type() != std::filesystem::file_type::regular &&
      status.type() != std::filesystem::file_type::directory)
    refuse("not-a-file", "something other than a file", "Name the picture's file.");
  GivenPhotograph out;
  out.source = path;
  out.bytes = text_of_file(path, allowed, record::most_photograph_bytes);
  if (out.bytes.size() > record::most_photograph_bytes)
    refuse("too-large", fmt::format("more than {} MB", record::most_photograph_bytes / bytes_in_mb),
           "Take it again with a smaller size, or send it to yourself made smaller.");
  const auto kind = record::photograph_kind(out.bytes);
  if (!kind)
    refuse("no-picture", out.bytes.empty() ? "an empty file" : "a file of another kind, whatever its name",
           "Name the picture's file, or save it as one of these.");
  out.picture.content = record::content_of_bytes(out.bytes);
  out.picture.kind = *kind;
  out.picture.size = static_cast<std::int64_t>(out.bytes.size());
  return out;
}

KeptPhotographs keep_photographs(Shelf& shelf, const OpenJob& open, const works::EntryKey& key,
                                 const std::vector<GivenPhotograph>& given, base::Instant now) {
  KeptPhotographs out;
  if (given.empty()) return out;
  record::Store& store = shelf.store();
  const record::JobId job = open.kept.value().id;
  store.in_one([&] {
    out = {};
    const std::vector<record::Entry> rows = store.entries(job);
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const record::Entry& it) { return it.key == key; });
    if (row == rows.end()) throw std::logic_error("photographs of an entry that is not in the book");
    for (const GivenPhotograph& one : given)
      (store.keep_photograph(job, row->id, one.bytes, now).added ? out.added : out.there_already) += 1;
  });
  return out;
}

PhotographsOf photographs_of(Shelf& shelf, const OpenJob& open) {
  PhotographsOf out;
  record::Store& store = shelf.store();
  const record::JobId job = open.kept.value().id;
  const std::vector<record::Photograph> all = store.photographs(job);
  if (all.empty()) return out;
  std::map<record::EntryId, works::EntryKey> key_of;
  for (const record::Entry& row : store.entries(job))
    key_of[row.id] = row.key;
  for (const works::Entry& entry : open.book.entries()) {
    // What an entry stands in for, and what that stood in for.
    std::set<works::EntryKey> chain{entry.key};
    for (const works::Entry* at = &entry;
         at != nullptr && at->corrects && chain.insert(*at->corrects).second;)
      at = open.book.find(*at->corrects);
    std::set<std::string> seen;
    for (const record::Photograph& photograph : all) {
      const auto key = key_of.find(photograph.entry);
      if (key != key_of.end() && chain.count(key->second) > 0 && seen.insert(photograph.content).second)
        out[entry.key].push_back(photograph);
    }
  }
  return out;
}

works::Book with_receipts(const works::Book& book, const PhotographsOf& photographs) {
  works::Book out;
  for (works::Entry entry : book.entries()) {
    const auto its = photographs.find(entry.key);
    if (auto* expense = std::get_if<works::Expense>(&entry.what);
        expense != nullptr && its != photographs.end())
      expense->receipt = (expense->receipt ? *expense->receipt + ", " : "") + marks_of(its->second);
    out.append(std::move(entry));
  }
  return out;
}

std::string photograph_words(const record::Photograph& photograph) {
  return fmt::format("{}, {} kB", record::title_of(photograph.kind),
                     (static_cast<std::size_t>(photograph.size) + bytes_in_kb - 1) / bytes_in_kb);
}

}  // namespace weatherstruck::desk
