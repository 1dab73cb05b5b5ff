#include "weatherstruck/desk/book_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "weatherstruck/base/digest.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::desk {
namespace {

works::EntryKey key_for(const works::What& what, base::Instant at,
                        const std::optional<works::EntryKey>& corrects) {
  const std::string whole = fmt::format("{}|{}|{}|{}", files::kind_of(what), files::body_of(what).dump(),
                                        base::iso_utc(at), corrects.value_or(""));
  return "said-" + base::policy_hash(whole);
}

// What it would be without the question at its end.
std::string without_asking(std::string sentence) {
  constexpr std::string_view asking = " Right?";
  if (sentence.size() > asking.size() &&
      sentence.compare(sentence.size() - asking.size(), asking.size(), asking) == 0) {
    sentence.resize(sentence.size() - asking.size());
  }
  return sentence;
}

}  // namespace

HeardText hear(const OpenJob& open, const works::Standing& standing, std::string_view text, base::Instant now,
               base::Currency currency, const std::optional<works::EntryKey>& corrects) {
  works::Surroundings around{now, currency, {}};
  for (const works::TaskProgress& task : standing.progress.tasks) {
    if (task.finished && !corrects) around.finished.push_back(task.task);
  }
  HeardText out;
  const works::BookWords words(open.job, standing.list);
  for (works::Heard& heard : words.read(text, around)) {
    const auto* understood = std::get_if<works::Understood>(&heard.reading);
    if (understood == nullptr) {
      out.doubts.push_back(std::move(heard));
      continue;
    }
    works::Entry entry{key_for(understood->what, understood->at, corrects), understood->what, understood->at,
                       now, corrects};
    out.ready.push_back({std::move(entry), without_asking(understood->sentence)});
  }
  return out;
}

works::Entry strike(const works::EntryKey& corrects, base::Instant now) {
  const works::What what = works::Struck{};
  return {key_for(what, now, corrects), what, now, now, corrects};
}

KeptEntries keep_entries(Shelf& shelf, OpenJob& open, const std::vector<works::Entry>& entries,
                         const files::ZoneSource& zones, base::Instant now) {
  base::Faults faults;
  for (const works::Entry& entry : entries) {
    for (base::Fault& fault : works::faults_of(entry))
      faults.push_back(std::move(fault));
  }
  if (!faults.empty()) throw base::InputError("the site book", std::move(faults));
  const auto remarks_now = [&] { return works::standing_of(open.job, open.book, now).progress.remarks; };
  const std::vector<works::Remark> before = remarks_now();
  const KeptAs kept = open.kept.value();
  KeptEntries out;
  shelf.store().in_one([&] {
    out = {};
    for (const works::Entry& entry : entries) {
      record::NewEntry row;
      row.key = entry.key;
      row.kind = files::kind_of(entry.what);
      row.at = entry.at;
      row.zone = open.job.site.zone.name();
      row.noted_at = entry.noted_at;
      row.body = files::body_of(entry.what).dump();
      if (entry.corrects) {
        const auto rows = shelf.store().entries(kept.id);
        const auto named = std::find_if(rows.begin(), rows.end(),
                                        [&](const record::Entry& it) { return it.key == *entry.corrects; });
        if (named != rows.end()) row.corrects = named->id;
      }
      (shelf.store().append(kept.id, row).added ? out.added : out.there_already) += 1;
    }
  });
  open = shelf.open(open.source, zones);
  for (works::Remark& remark : remarks_now()) {
    if (std::find(before.begin(), before.end(), remark) == before.end())
      out.remarks.push_back(std::move(remark));
  }
  return out;
}

std::vector<BookLine> book_lines(const OpenJob& open, const works::Standing& standing, base::Instant now) {
  std::set<works::EntryKey> counting;
  for (const works::Entry& entry : works::effective(open.book).entries)
    counting.insert(entry.key);
  std::vector<BookLine> lines;
  for (const works::Entry& entry : open.book.entries()) {
    BookLine line;
    line.number = static_cast<std::int64_t>(lines.size()) + 1;
    line.entry = entry;
    line.words =
        std::holds_alternative<works::Struck>(entry.what)
            ? "struck out"
            : without_asking(works::shown_back(entry.what, entry.at, standing.list, open.job.site.zone, now));
    line.counts = counting.count(entry.key) > 0;
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace weatherstruck::desk
